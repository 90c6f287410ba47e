"""Case files: round trips, and one sentence for every fault with the rest kept."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case
from diagnose.casefile import read_case, to_toml, write_case
from diagnose.problems import BadInputError
from diagnose.tomlfiles.read import MOST_BYTES, fit

TEXT = st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=20)
DATES = st.dates(dt.date(1990, 1, 1), dt.date(2100, 1, 1))
NAMES = st.from_regex(r"[a-z][a-z_]{0,8}", fullmatch=True)
ANSWERS = st.one_of(
    st.booleans(),
    st.integers(-(10**6), 10**6),
    st.floats(-1e6, 1e6),
    DATES,
    TEXT,
    st.lists(TEXT, max_size=3).map(tuple),
)
CASES = st.builds(
    Case,
    date=DATES,
    title=TEXT,
    story=TEXT,
    plant=st.fixed_dictionaries({"name": TEXT, "profile": st.none() | TEXT}),
    place=st.fixed_dictionaries({"latitude": st.none() | st.floats(-90, 90), "city": st.none() | TEXT}),
    leaf_history=st.lists(
        st.fixed_dictionaries(
            {"date": DATES, "present": st.integers(0, 50), "new": st.none() | st.integers(0, 9)}
        ),
        max_size=4,
    ),
    events=st.lists(
        st.fixed_dictionaries({"date": DATES, "kind": st.just("moved"), "note": TEXT}), max_size=3
    ),
    answers=st.dictionaries(NAMES, ANSWERS, max_size=5),
)


def write(tmp_path, text):
    path = tmp_path / "case.toml"
    path.write_text(text, encoding="utf-8")
    return path


@given(CASES)
def test_what_is_written_reads_back_equal(case):
    import tomli

    text = to_toml(case)
    assert fit(tomli.loads(text), text, Case, None) == case


def test_a_file_on_disk_round_trips(tmp_path):
    case = Case(date=dt.date(2026, 1, 14), title="Shelf", answers={"medium": "soil_mix"})
    write_case(tmp_path / "new" / "case.toml", case)
    assert read_case(tmp_path / "new" / "case.toml") == (case, ())
    assert [path.name for path in (tmp_path / "new").iterdir()] == ["case.toml"]


def test_a_failed_write_leaves_the_old_file(tmp_path, monkeypatch):
    path = tmp_path / "case.toml"
    old = Case(date=dt.date(2026, 1, 14), title="old")
    write_case(path, old)
    monkeypatch.setattr(
        "os.fsync", lambda handle: (_ for _ in ()).throw(OSError(28, "No space left on device"))
    )
    with pytest.raises(OSError, match="space"):
        write_case(path, Case(date=dt.date(2026, 1, 15), title="new"))
    assert read_case(path) == (old, ())
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.parametrize(
    ("text", "sentence", "kept"),
    [
        (
            "date = 2026-01-14\n[place]\nlatitude = 95\n",
            "line 3, place, latitude: found 95, expected a number less than or equal to 90.",
            Case(date=dt.date(2026, 1, 14)),
        ),
        (
            'date = 2026-01-14\ntitel = "Shelf"\n',
            "line 2, titel: found the unknown key 'titel', expected one of format, date, title, story, plant, place, ",
            Case(date=dt.date(2026, 1, 14)),
        ),
        (
            'date = 2026-01-14\nevents = [\n  {date = 2026-01-01, kind = "moved"},\n  {date = 2026-01-02, kind = "movd"},\n]\n',
            "line 4, events 2, kind: found 'movd', expected 'brought_home', 'moved', 'repotted', 'medium_changed', 'fed', "
            "'treated', 'heating_on' or 'other'; did you mean 'moved'.",
            Case.model_validate(
                {"date": dt.date(2026, 1, 14), "events": [{"date": dt.date(2026, 1, 1), "kind": "moved"}]}
            ),
        ),
        (
            'date = 2026-01-14\n[answers]\nmedium = "soil_mix"\nodd = { x = 1 }\n',
            "line 4, answers, odd: found { x = 1 }, expected",
            Case(date=dt.date(2026, 1, 14), answers={"medium": "soil_mix"}),
        ),
    ],
)
def test_a_faulty_field_is_told_and_the_rest_kept(tmp_path, text, sentence, kept):
    path = write(tmp_path, text)
    case, (problem,) = read_case(path)
    assert problem.sentence().startswith(f"{path}, {sentence}")
    assert case == kept


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("title = 'x'\n", "date: found nothing, expected 'date'; add it."),
        ("date = 'soon'\n", "line 1, date: found 'soon', expected a date such as 2026-01-31."),
        ("date = \n", "line 1: found text that is not TOML"),
        ("date = 2026-01-14\nformat = 2\n", "line 2, format: found 2, expected 1."),
        ("x = " + "[" * 5000, "found"),
    ],
)
def test_a_case_without_a_usable_date_is_refused(tmp_path, text, sentence):
    with pytest.raises(BadInputError) as caught:
        read_case(write(tmp_path, text))
    assert sentence in caught.value.problems[0].sentence()


def test_files_that_cannot_be_read_are_told(tmp_path):
    (tmp_path / "big.toml").write_bytes(b"#" * (MOST_BYTES + 1))
    (tmp_path / "latin.toml").write_bytes(b"title = '\xe9'")
    for name, words in [
        ("none.toml", "no such file"),
        ("big.toml", "bytes"),
        ("latin.toml", "UTF-8"),
        ("", "a folder"),
    ]:
        with pytest.raises(BadInputError, match=words):
            read_case(tmp_path / name)


@given(st.binary(max_size=200))
def test_any_bytes_give_a_case_or_a_sentence(tmp_path_factory, data):
    path = tmp_path_factory.mktemp("bytes") / "case.toml"
    path.write_bytes(data)
    try:
        read_case(path)
    except BadInputError as error:
        assert all(problem.sentence() for problem in error.problems)
