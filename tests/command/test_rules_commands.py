"""`diagnose rules …` from its arguments to its output and exit code."""

import io
import json
import re
import sys

import pytest

from diagnose import locations
from diagnose.command import main
from diagnose.rulebase.load import load

EVIDENCE = """
[[evidence]]
id = "mine"
cause = "drought"
speaks = "for"
strength = "strong"
when = { fact = "came_from", is = "parcel" }
because = "It came by post."
origin = "my own plants"
fires = [ { came_from = "parcel" } ]
silent = [ { came_from = "greenhouse" } ]
"""
SPARE = """
[[finding]]
id = "spare"
text = "it is spare"

[[rule]]
id = "spare_rule"
gives = "spare"
when = { fact = "medium_now", is = "moist" }
because = "It is moist."
origin = "my own plants"
fires = [ { medium_now = "moist" } ]
silent = [ { medium_now = "soggy" } ]
"""
DRY = "forgotten_in_july"


@pytest.fixture
def own(tmp_path):
    file = tmp_path / "own.toml"
    choice = load(locations.built_in_rules()).questions["came_from"].choices
    file.write_text(EVIDENCE.replace("parcel", choice[-1].id).replace("greenhouse", choice[0].id))
    return file


@pytest.fixture
def run(capsys, monkeypatch):
    def run(*arguments, typed=""):
        monkeypatch.setattr(sys, "stdin", io.StringIO(typed))
        code = main([str(argument) for argument in arguments])
        out, err = capsys.readouterr()
        return code, out, err

    return run


def test_the_shipped_rules_have_no_fault(run):
    code, out, err = run("rules", "check")
    assert (code, err) == (0, "")
    assert "no faults" in out.splitlines()[-1]


def test_a_sound_house_file_gets_no_word_about_others(run, own):
    code, out, _ = run("rules", "check", own)
    assert code == 0
    assert len(out.splitlines()) == 1


def test_a_fault_is_exit_code_1_with_file_line_and_check(run, own):
    own.write_text(own.read_text().replace("came_from", "came_frm", 1))
    code, out, _ = run("rules", "check", own)
    assert code == 1
    first = out.splitlines()[0]
    assert first.startswith(f"{own}, line 7, evidence mine, when: ")
    assert first.endswith("did you mean 'came_from'. [names]")


def test_advice_alone_is_exit_code_0(run, tmp_path):
    (tmp_path / "own.toml").write_text(SPARE)
    code, out, _ = run("rules", "check", tmp_path)
    assert (code, "[advice, unused_finding]" in out) == (0, True)


@pytest.mark.parametrize("form", ["--json", "--sarif"])
def test_other_forms_are_json_and_nothing_else(run, own, form):
    own.write_text(own.read_text().replace("came_from", "came_frm", 1))
    code, out, err = run("rules", "check", form, own)
    document = json.loads(out)
    assert (code, err) == (1, "")
    assert document["version"] == (1 if form == "--json" else "2.1.0")


def test_the_house_folder_of_a_checkout_may_be_named(run):
    code, out, _ = run("rules", "check", locations.built_in_rules() / "house")
    assert (code, "no faults" in out) == (0, True)


def test_list_knows_measures_too(run):
    code, out, _ = run("rules", "list", "measure")
    assert code == 0
    assert "day_length_h" in out


def test_show_says_where_a_rule_fires(run, own):
    code, out, _ = run("rules", "show", "drought_light_pot", "--case", locations.demo_cases() / f"{DRY}.toml")
    assert code == 0
    assert "Rests on the questions:\n- pot_weight" in out
    assert out.count(f"- {DRY}") == 2  # once as a demo case, once as the case given
    code, out, _ = run("rules", "show", "mine", "--rules", own)
    assert "evidence mine (house)" in out


@pytest.mark.parametrize(
    "entry", ["day_length_h", "drought", "medium_now", "alocasia", "light_below_need", "sap", "L-01"]
)
def test_show_knows_every_kind(run, entry):
    code, out, err = run("rules", "show", entry)
    assert (code, err) == (0, "")
    assert len(out.splitlines()) > 3


def test_an_unknown_id_gets_the_nearest(run):
    code, out, err = run("rules", "show", "medium_nwo")
    assert (code, out) == (2, "")
    assert "did you mean 'medium_now'" in err


def test_a_switched_off_id_says_so(run, tmp_path):
    (tmp_path / "off.toml").write_text('switch_off = ["drought_light_pot"]')
    assert "a house file switches it off" in run("rules", "show", "drought_light_pot", "--rules", tmp_path)[2]


def test_try_shows_ranks_and_scores_before_and_after(run, tmp_path):
    (tmp_path / "off.toml").write_text('switch_off = ["drought_wilts_dry_and_recovers"]')
    code, out, err = run("rules", "try", tmp_path / "off.toml", locations.demo_cases() / f"{DRY}.toml")
    assert (code, err) == (0, "")
    row = re.search(
        r"^Too dry at the roots +(\d+) +\S+ %? *([-+][\d.]+) dB +(\d+) +\S+ %? *([-+][\d.]+) dB$",
        out,
        re.MULTILINE,
    )
    assert row, out
    assert float(row[2]) > float(row[4])
    assert "- +12.5 dB drought_wilts_dry_and_recovers" in out
    assert "Rotting roots" not in out  # unchanged


def test_try_says_when_nothing_changes_and_tells_faults_of_the_file(run, own):
    own.write_text(own.read_text().replace("silent", "silence"))
    code, out, _ = run("rules", "try", own, locations.demo_cases() / f"{DRY}.toml")
    assert code == 1
    assert out.startswith("No ranking changes.")
    assert "did you mean 'silent'" in out


def test_book_writes_by_ending_and_never_over_a_file(run, tmp_path):
    for name, start in (("book.html", "<!DOCTYPE html>"), ("book.md", "# The rules")):
        assert run("rules", "book", "-o", tmp_path / name)[0] == 0
        assert (tmp_path / name).read_text(encoding="utf-8").startswith(start)
    assert run("rules", "book", "-o", tmp_path / "book.md")[0] == 2
    assert run("rules", "book", "--force", "-o", tmp_path / "book.md")[0] == 0
    assert run("rules", "book", "-o", tmp_path / "book.pdf")[0] == 2


def lines(*typed):
    return "\n".join(typed) + "\n"


NEW = [
    "drought",
    "for",
    "slight",
    "day_temp_c",
    "above 33",
    "",
    "It is {day_temp_c} by day.",
    "my own plants",
]


def test_new_writes_a_file_that_passes_its_check(run, tmp_path):
    file = tmp_path / "new.toml"
    code, out, err = run("rules", "new", "-o", file, typed=lines(*NEW, ""))
    assert (code, err) == (0, "")
    assert f"Wrote {file}" in out
    assert file.read_text(encoding="utf-8").count("#") >= 4
    base = load(locations.built_in_rules(), [file])
    entry = base.evidence["my_drought_day_temp_c"]
    assert (entry.cause, entry.speaks, entry.strength, entry.origin) == (
        "drought",
        "for",
        "slight",
        "my own plants",
    )
    assert run("rules", "check", file)[0] == 0


def test_new_never_writes_over_a_file(run, tmp_path):
    file = tmp_path / "new.toml"
    file.write_text("# mine")
    assert run("rules", "new", "-o", file, typed=lines(*NEW, ""))[0] == 2
    assert file.read_text() == "# mine"


def test_new_without_a_name_goes_to_the_growers_folder_when_the_built_in_one_is_closed(run, monkeypatch):
    monkeypatch.setattr("diagnose.locations.os.access", lambda *_: False)
    for number in ("", "_2"):
        name = f"my_drought_day_temp_c{number}"
        typed = NEW if not number else [*NEW[:4], "above 36", *NEW[5:]]
        assert run("rules", "new", typed=lines(*typed, ""))[0] == 0
        assert (locations.user_rules() / f"{name}.toml").exists()


def test_new_asks_again_with_the_nearest_name(run, tmp_path):
    typed = [
        "drougth",
        "drought",
        "fore",
        "for",
        "?",
        "slight",
        "day_temp",
        "day_temp_c",
        "warm",
        "above 99",
        "above 33",
        "",
        "It is {temp}.",
        *NEW[6:],
    ]
    code, out, _ = run("rules", "new", "-o", tmp_path / "new.toml", typed=lines(*typed, "Bad Name", ""))
    assert code == 0
    for words in ("did you mean 'drought'", "slight (2.5 dB)", "Type the name before the colon", "Such as: below 12", "It lies between", "{temp} is not filled", "Lower-case letters"):  # fmt: skip
        assert words in " ".join(out.split())


def test_new_makes_a_question_of_the_growers_own(run, tmp_path):
    file = tmp_path / "new.toml"
    question = [
        "new",
        'Do the "tips" hang?',
        "",
        "choice",
        "never, at noon, all day",
        "air",
        "Look at the tips.",
        "Limp tips tell of thirst.",
    ]
    typed = [
        "drought",
        "for",
        "moderate",
        *question,
        "2,3",
        "day_temp_c",
        "20 to 30",
        "",
        "They hang {do_the_tips_hang}.",
        "my own plants",
        "",
    ]
    code, _, err = run("rules", "new", "-o", file, typed=lines(*typed))
    assert (code, err) == (0, "")
    base = load(locations.built_in_rules(), [file])
    assert base.problems == ()
    assert [choice.id for choice in base.questions["do_the_tips_hang"].choices] == [
        "never",
        "at_noon",
        "all_day",
    ]


@pytest.mark.parametrize("typed", ["", "drought\n", lines("drought", "stop")])
def test_new_stopped_half_way_writes_nothing(run, tmp_path, typed):
    code, _, err = run("rules", "new", "-o", tmp_path / "new.toml", typed=typed)
    assert code == 2
    assert "nothing was written" in err
    assert list(tmp_path.iterdir()) == []


def test_new_tells_of_a_rule_that_says_the_same_and_shows_what_was_typed(run, tmp_path):
    typed = [
        "drought",
        "for",
        "slight",
        "pot_weight",
        "light",
        "",
        "The pot is light.",
        "my own plants",
        "mine",
    ]
    code, out, err = run("rules", "new", "-o", tmp_path / "new.toml", typed=lines(*typed))
    assert code == 1
    assert "what drought_light_pot in water.toml says on the same condition" in err
    assert 'id = "mine"' in out
    assert not (tmp_path / "new.toml").exists()


def test_every_verb_has_help(capsys):
    for verb in ("check", "list", "show", "new", "try", "book"):
        with pytest.raises(SystemExit) as ended:
            main(["rules", verb, "--help"])
        assert ended.value.code == 0
        assert verb in capsys.readouterr().out


def test_try_of_a_file_in_use_compares_with_the_rules_without_it(run, tmp_path):
    file = tmp_path / "off.toml"
    file.write_text('switch_off = ["drought_wilts_dry_and_recovers"]')
    case = locations.demo_cases() / f"{DRY}.toml"
    _, new, _ = run("rules", "try", file, case)
    code, out, err = run("rules", "try", file, case, "--rules", tmp_path)
    assert (code, err) == (0, "")
    assert out.startswith(f"{file} is in use already")
    assert out.partition("\n")[2] == new


def test_new_takes_the_words_and_decimals_of_the_language(run, tmp_path, monkeypatch):
    monkeypatch.setenv("LANGUAGE", "de")
    file = tmp_path / "kalt.toml"
    lines = [
        "drought",
        "for",
        "slight",
        "night_low_c",
        "unter 12,5",
        "misting",
        "CHOICE",
        "",
        "Kalt.",
        "Pflanzen",
        "",
    ]
    choice = load(locations.built_in_rules()).questions["misting"].choices[0].id
    lines[lines.index("CHOICE")] = choice
    code, out, _ = run("rules", "new", "-o", file, typed="\n".join(lines) + "\n")
    assert code == 0
    assert "Geschrieben:" in out
    text = file.read_text(encoding="utf-8")
    assert 'fact = "night_low_c", below = 12.5' in text
    monkeypatch.setenv("LANGUAGE", "en")
    assert run("rules", "check", file)[0] == 0
