"""Rule files that no one means well: one clear sentence each, no crash, no endless wait, no code run, and the rest loads."""

import copy
import os
import re
from pathlib import Path

import pytest
import tomli
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose import locations
from diagnose.problems import BadInputError
from diagnose.report.rule_check import remark_line
from diagnose.report.rule_text import entry_text, tables
from diagnose.rulebase.load import load
from diagnose.rulebase.model import RuleFile
from diagnose.rulecheck import check_rules
from diagnose.tomlfiles.read import fit, read_toml

README = (locations.built_in_rules() / "house" / "README.md").read_text(encoding="utf-8")
EXAMPLE = re.search(r"```toml\n(.*?)```", README, re.DOTALL)[1]
RULE = EXAMPLE[EXAMPLE.index("[[evidence]]") :]


def nested(levels):
    return RULE.replace(
        '{ finding = "drips_at_night" }', "{ all = [ " * levels + '{ fact = "x", is = "y" }' + " ] }" * levels
    )


TEXTS = {
    "10,000 brackets": "x = " + "[" * 10_000 + "]" * 10_000,
    "10,000 tables": "x = " + "{ a = " * 10_000 + "1" + " }" * 10_000,
    "a key of 10,000 parts": ".".join(["a"] * 10_000) + " = 1",
    "conditions 300 deep": nested(300),
    "conditions 100 deep": nested(100),
    "conditions 20 deep": nested(20),
    "a word of a million letters": f'[[finding]]\nid = "{"a" * 900_000}"\ntext = "some text"',
    "a text of a million letters": f'[[finding]]\nid = "a"\ntext = "{"a" * 900_000}"',
    "a key of a million letters": "a" * 900_000 + " = 1",
    "a number of 5,000 digits": "[[cause]]\nprior_db = " + "9" * 5_000,
    "a number of 4,000 digits": "[[cause]]\nprior_db = " + "9" * 4_000,
    "a number of 100,000 hex digits": "[[cause]]\nprior_db = 0x" + "f" * 100_000,
    "a float beyond all": "[[cause]]\nprior_db = 1e999",
    "nan": RULE.replace('{ finding = "drips_at_night" }', '{ fact = "humidity_percent", above = nan }'),
    "inf": RULE.replace('{ finding = "drips_at_night" }', '{ fact = "humidity_percent", below = inf }'),
    "a key twice": '[[finding]]\nid = "a"\nid = "b"\ntext = "some text"',
    "a table twice": "[finding]\n[finding]",
    "a list and a table": "finding = []\n[[finding]]\n",
    "10,000 unknown keys": "".join(f"k{n} = 1\n" for n in range(10_000)),
    "10,000 empty entries": "[[finding]]\n" * 10_000,
    "a name of Python": '[[finding]]\nid = "__class__"\ntext = "some text"',
    "a template of Python": RULE.replace("The plant drips", "{leaf_tips_drip.__class__.__mro__}"),
    "a template with a format": RULE.replace("The plant drips", "{leaf_tips_drip!r:>99999999}"),
    "a zero byte": 'x = "\x00"',
    "two to the two-thousandth alternatives": RULE.replace(
        '{ finding = "drips_at_night" }',
        "{ all = [" + '{ any = [{ fact = "medium_now", is = "moist" }, { fact = "humidity_percent", above = 9 }] },' * 2000 + "] }",
    ),
}  # fmt: skip
FINE = {"conditions 20 deep"}  # but for its unknown fact


def told(file):
    """Load a file beside a small built-in folder, check all, and return what is said."""
    folder = file.parent / "built_in"
    folder.mkdir(exist_ok=True)
    (folder / "sound.toml").write_text('[[finding]]\nid = "sound"\ntext = "all is well"\n')
    base = load(folder, [file])
    assert "sound" in base.findings
    sentences = [remark_line(problem) for problem in check_rules(base)]
    assert all(len(sentence) < 2000 for sentence in sentences), max(sentences, key=len)[:300]
    return base, [sentence for sentence in sentences if str(file) in sentence]


@pytest.mark.parametrize("name", TEXTS)
def test_a_hostile_file_is_told_and_left_out(tmp_path, name):
    file = tmp_path / "own.toml"
    file.write_text(TEXTS[name], encoding="utf-8")
    base, sentences = told(file)
    assert 1 <= len(sentences) <= 60
    assert str(file) not in base.files or name.startswith("two to")


@pytest.mark.parametrize(
    "content", [b"\xff\xfe", b"id = '\xc3\x28'", b"\xef\xbb\xbf# with a mark\n\xff", b"\x00" * 100]
)
def test_bytes_that_are_no_text_are_told(tmp_path, content):
    file = tmp_path / "own.toml"
    file.write_bytes(content)
    assert len(told(file)[1]) == 1


def test_a_file_beyond_a_megabyte_is_told(tmp_path):
    file = tmp_path / "own.toml"
    file.write_text("#" * 1_000_001)
    assert "found 1,000,001 bytes, expected at most 1,000,000" in told(file)[1][0]


def test_links_in_a_circle_devices_and_pipes_are_told_and_not_followed(tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    (own / "self.toml").symlink_to("self.toml")
    (own / "endless.toml").symlink_to("/dev/zero")
    (own / "around").symlink_to(".")
    (own / "folder.toml").mkdir()
    os.mkfifo(own / "pipe.toml")
    sentences = told(own)[1]
    assert [Path(sentence.split(": found")[0]).name for sentence in sentences] == [
        "endless.toml", "folder.toml", "pipe.toml", "self.toml",
    ]  # fmt: skip


def test_a_folder_of_10_000_files_is_told(tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    for number in range(10_000):
        (own / f"{number}.toml").touch()
    (sentence,) = told(own)[1]
    assert "found more than 2,000 .toml files" in sentence


def test_a_chain_of_files_each_at_fault_by_the_next_ends(tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    for number in range(300):
        (own / f"{number:03}.toml").write_text(
            f'[[cause]]\nid = "c{number}"\nname = "c"\nwhat = "what"\nlooks = "looks"\nsettles = "settles"\nprior_db = -5\n'
            f'origin = "me, today"\nadvice = ["a{number}"]\n[[advice]]\nid = "a{number - 1}"\ntext = "text"\nhow = "how"\n'
            f'effort = "look"\norder = 1\norigin = "me, today"\n'
        )
    base, sentences = told(own)
    assert len(sentences) == 300
    assert len(base.causes) == 0


def test_what_is_written_is_never_run(tmp_path, capsys):
    file = tmp_path / "own.toml"
    code = "__import__('os').system('echo run')"
    file.write_text(
        RULE.replace('{ finding = "drips_at_night" }', '{ fact = "leaf_tips_drip", is = "yes" }')
        .replace("The plant drips at night", f"{code} {{leaf_tips_drip}} $HOME `id` %s %(x)s [bold]")
        .replace("my own plants", code)
        + EXAMPLE[: EXAMPLE.index("[[finding]]")]
    )
    base = load(locations.built_in_rules(), [file])
    assert base.problems == ()
    text = entry_text(base, "evidence", base.evidence["dripping_suggests_overwatering"])
    assert code in " ".join(text.split())
    assert capsys.readouterr().out == ""


@given(st.binary(max_size=300))
@settings(max_examples=300)
def test_any_bytes_load_or_are_told(tmp_path_factory, content):
    file = tmp_path_factory.getbasetemp() / "bytes.toml"
    file.write_bytes(content)
    try:
        data, text = read_toml(file)
        fit(data, text, RuleFile, str(file))
    except BadInputError as error:
        assert error.problems


VALUES = st.recursive(
    st.one_of(
        st.booleans(),
        st.integers(),
        st.floats(),
        st.dates(),
        st.text(max_size=8),
        st.sampled_from(["yes", "root_rot", "leaf_tips_drip", "moist", "drips_at_night", "slight", "for", "id", "{medium_now}"]),
    ),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["all", "any", "fact", "is", "finding", "between", "x"]), inner, max_size=3),
    max_leaves=8,
)  # fmt: skip


def places(value, path=()):
    """Every place in plain data."""
    yield path
    for key, inner in (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    ):
        yield from places(inner, (*path, key))


@st.composite
def mangled(draw):
    """The example of the page with some values changed, taken out, doubled or moved."""
    data = tomli.loads(EXAMPLE)
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from([place for place in places(data) if place]))
        above = data
        for key in path[:-1]:
            above = above[key]
        change = draw(st.sampled_from(["other", "none", "twice", "more"]))
        if change == "other":
            above[path[-1]] = draw(VALUES)
        elif change == "none":
            del above[path[-1]]
        elif change == "twice" and isinstance(above, list):
            above.append(copy.deepcopy(above[path[-1]]))
        elif isinstance(above, dict):
            above[
                draw(st.sampled_from(["otherwise", "group", "least", "override", "unit", "ask_when", "x y"]))
            ] = draw(VALUES)
    return data


@pytest.fixture(scope="module")
def small(tmp_path_factory):
    """What the example of the page leans on, and no more: loading it takes no time."""
    folder = tmp_path_factory.mktemp("small")
    whole = load(locations.built_in_rules())
    entries = {
        "subject": [whole.subjects["air"], whole.subjects[whole.questions["medium_now"].subject]],
        "question": [whole.questions["medium_now"].model_copy(update={"ask_when": None, "skip_because": ""})],
        "cause": [whole.causes["root_rot"].model_copy(update={"advice": (), "origin": "common practice"})],
    }
    plain = {
        table: [entry.model_dump(exclude_none=True, by_alias=True, mode="json") for entry in those]
        for table, those in entries.items()
    }
    (folder / "small.toml").write_text(tomli_w.dumps(plain), encoding="utf-8")
    (folder / "sound.toml").write_text('[[finding]]\nid = "sound"\ntext = "all is well"\n')
    assert load(folder).problems == ()
    return folder


@given(mangled())
@settings(max_examples=300)
def test_any_mangled_file_loads_or_is_told_with_a_line_that_is_in_it(small, tmp_path_factory, data):
    file = tmp_path_factory.getbasetemp() / "mangled.toml"
    text = tomli_w.dumps(data)
    file.write_text(text, encoding="utf-8")
    loaded = load(small, [file])
    assert "sound" in loaded.findings
    for problem in check_rules(loaded):
        if problem.file == str(file):
            assert problem.line is not None
            assert 1 <= problem.line <= max(1, len(text.splitlines()))
    if str(file) in loaded.files:
        for table, entries in tables(loaded).items():
            for entry in entries.values():
                if loaded.is_house(table, entry.id):
                    assert entry_text(loaded, table, entry)
