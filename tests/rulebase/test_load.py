"""Rule folders become one rule base; every fault is told with file and line, and spoils only its own file."""

import pytest

from diagnose.rulebase.load import load
from small_rules import SMALL, entry


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "rules" / "house").mkdir(parents=True)
    (tmp_path / "rules" / "base.toml").write_text(SMALL)
    return tmp_path / "rules"


def house(folder, text, name="own.toml"):
    (folder / "house" / name).write_text(text)
    return load(folder)


def sentences(base):
    return [problem.sentence() for problem in base.problems]


def test_a_sound_folder_loads_whole(folder):
    base = load(folder)
    assert sentences(base) == []
    assert [question.id for question in base.asked()] == ["window", "night_c"]
    assert base.vocabulary["window"].said("south") == "south"
    assert base.vocabulary["night_c"].said(14.0) == "14 °C"
    assert len(base.hash) == 12


def test_the_hash_tells_changed_rules_apart(folder):
    before = load(folder).hash
    assert load(folder).hash == before
    assert house(folder, 'switch_off = ["dim_speaks"]').hash != before


def test_a_house_file_overrides_and_switches_off(folder):
    override = (
        entry("dim_speaks")
        .replace('"strong"', '"slight"')
        .replace('cause = "dark"', 'cause = "dark"\noverride = true')
    )
    base = house(folder, override)
    assert sentences(base) == []
    assert base.evidence["dim_speaks"].strength == "slight"
    assert base.is_house("evidence", "dim_speaks")
    base = house(folder, 'switch_off = ["dim_speaks"]')
    assert "dim_speaks" not in base.evidence
    assert base.switched_off == {"dim_speaks"}


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        (
            '[[finding]]\nid = "dim"\ntext = "again"\n',
            2,
            "found the id 'dim' again (base.toml has it), expected an id of its own; choose another id, or write override = true",
        ),
        (
            '[[finding]]\nid = "dimm"\noverride = true\ntext = "other"\n',
            2,
            "found override of 'dimm', which no finding has",
        ),
        (
            'switch_off = [\n  "dim_speak",\n]\n',
            2,
            "found 'dim_speak', which no entry has, expected the id of an existing entry; did you mean 'dim_speaks'",
        ),
        (
            '[[findin]]\nid = "x"\n',
            1,
            "found the unknown key 'findin', expected one of subject, question, finding",
        ),
        ('[[finding]]\nid = "x"\n', 1, "found nothing, expected 'text'; add it"),
        (
            '[[finding]]\nid = "X y"\ntext = "some text"\n',
            2,
            "found 'X y', expected lower-case letters, digits and _",
        ),
        ('[[finding]]\nid = "x"\ntext = "some\n', 3, "found text that is not TOML"),
    ],
)
def test_a_faulty_house_file_is_left_out_and_told(folder, text, line, words):
    base = house(folder, text)
    (sentence,) = sentences(base)
    assert f"own.toml, line {line}" in sentence
    assert words in sentence
    assert "dim_speaks" in base.evidence


RULE = """
[[evidence]]
id = "mine"
cause = "dark"
speaks = "for"
strength = "slight"
when = { fact = "window", is = "north" }
because = "It faces {window}."
origin = "my own eyes"
fires = [ { window = "north" } ]
silent = [ { window = "south" } ]
"""


def test_a_house_rule_may_name_any_origin(folder):
    base = house(folder, RULE)
    assert sentences(base) == []
    assert base.is_house("evidence", "mine")


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        (
            'cause = "dark"',
            'cause = "drak"',
            4,
            "found 'drak', which no cause is called, expected the id of a cause; did you mean 'dark'",
        ),
        (
            'fact = "window"',
            'fact = "windw"',
            7,
            "found 'windw', which no question, measure or plant fact provides",
        ),
        (
            'is = "north"',
            'is = "nroth"',
            7,
            "found 'nroth', which window never is, expected one of north, east, south; did you mean 'north'",
        ),
        ('is = "north"', "below = 3", 7, "found the number 3.0, expected one of north, east, south"),
        (
            'fact = "window", is = "north"',
            'fact = "night_c", is = "cold"',
            7,
            "found the word 'cold', expected a number in °C (night_c is one)",
        ),
        ('fact = "window", is = "north"', 'finding = "dimm"', 7, "found 'dimm', which no finding is called"),
        (
            "{window}",
            "{night_c}",
            8,
            "found {night_c} in its text, expected one of the facts of its own condition: window",
        ),
        ("{window}", "{window.__class__}", 8, "in its text"),
        ("{window}", "{window", 8, "in its text"),
        (
            'window = "south"',
            'window = "sth"',
            11,
            "found window = 'sth', expected one of north, east, south; did you mean 'south'",
        ),
        ('window = "south"', 'windw = "south"', 11, "found the unknown fact 'windw'"),
    ],
)
def test_a_dangling_name_is_told_with_the_nearest_known(folder, old, new, line, words):
    base = house(folder, RULE.replace(old, new))
    sentence = sentences(base)[0]
    assert f"own.toml, line {line}" in sentence
    assert words in sentence
    assert "mine" not in base.evidence
    assert "dim_speaks" in base.evidence


def test_a_fault_in_one_house_file_leaves_the_others(folder):
    (folder / "house" / "good.toml").write_text(RULE)
    base = house(folder, "[[cause]]\n", "bad.toml")
    assert len(base.problems) >= 1
    assert all("bad.toml" in sentence for sentence in sentences(base))
    assert "mine" in base.evidence


def test_an_otherwise_side_cannot_rest_on_a_finding(folder):
    text = RULE.replace('fact = "window", is = "north"', 'finding = "dim"').replace("{window}", "there")
    base = house(folder, text + 'otherwise = "slight"\notherwise_because = "It is not dim."\n')
    assert "found otherwise on a rule that uses a finding" in sentences(base)[0]


def test_built_in_rules_must_name_a_known_origin(folder):
    (folder / "more.toml").write_text(RULE)
    assert "found the origin 'my own eyes'" in sentences(load(folder))[0]


def test_folders_given_beside_are_house_and_a_missing_one_is_told(folder, tmp_path):
    (tmp_path / "extra").mkdir()
    (tmp_path / "extra" / "own.toml").write_text(RULE)
    assert load(folder, [tmp_path / "extra"]).is_house("evidence", "mine")
    assert "no such folder" in sentences(load(folder, [tmp_path / "nowhere"]))[0]


SWITCHES = """
[[evidence]]
id = "north"
cause = "dark"
speaks = "for"
strength = "slight"
when = { any = [ { fact = "window", is = "north" }, { finding = "dim" } ] }
because = "It faces north."
origin = "my own eyes"
fires = [ { window = "north" } ]
silent = [ { window = "south" } ]
"""


@pytest.mark.parametrize(
    ("off", "gone"),
    [
        ("dim", {("finding", "dim"), ("rule", "dim_in_the_north")}),
        ("window", {("question", "window")}),
        ("dark", {("cause", "dark"), ("evidence", "dim_speaks"), ("evidence", "warm_speaks")}),
        ("light", {("subject", "light"), ("question", "window"), ("question", "night_c")}),
    ],
)
def test_what_stands_on_a_switched_off_entry_goes_with_it_and_nothing_else(folder, off, gone):
    def entries(base):
        return {
            (table, entry_id)
            for table, field in (("subject", "subjects"), ("question", "questions"), ("finding", "findings"),
                                 ("rule", "rules"), ("evidence", "evidence"), ("cause", "causes"))
            for entry_id in getattr(base, field)
        }  # fmt: skip

    before = entries(load(folder))
    base = house(folder, f'switch_off = ["{off}"]')
    assert sentences(base) == []
    assert before - entries(base) == gone


def test_a_folder_given_twice_is_read_once(folder, tmp_path):
    house(folder, SWITCHES)
    assert sentences(load(folder, [folder / "house", folder / "house" / "own.toml", folder])) == []
