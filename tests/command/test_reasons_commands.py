"""`diagnose why`, `next`, `whatif`, `firm`: what they print, their JSON, and bad input told in one sentence."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from diagnose import locations
from diagnose.command.main import main
from diagnose.command.schema import schema

CASE = str(locations.demo_cases() / "soggy_after_the_big_pot.toml")


def run(capsys, *words):
    code = main(words)
    told = capsys.readouterr()
    return code, told.out, told.err


@pytest.mark.parametrize(
    ("words", "shape"),
    [
        (("why", CASE, "drought"), "why"),
        (("why", CASE, "root_rot", "--over", "energy_deficit"), "versus"),
        (("next", CASE), "next"),
        (("whatif", CASE, "roots_look=pale_firm", "drooping=?"), "whatif"),
        (("firm", CASE), "firm"),
    ],
)
def test_each_command_prints_lines_and_json_of_its_published_shape(words, shape, capsys):
    code, text, errors = run(capsys, *words)
    assert (code, errors) == (0, "")
    assert len(text.splitlines()) > 5
    code, printed, errors = run(capsys, *words, "--json")
    assert (code, errors) == (0, "")
    document = json.loads(printed)
    Draft202012Validator(json.loads(schema(shape))).validate(document)
    assert (document["version"], document["case"], document["first"]) == (1, CASE, "root_rot")


def test_a_sceptic_is_told_why_it_is_not_another_cause(capsys):
    _, text, _ = run(capsys, "why", CASE, "drought")
    assert "Why too dry at the roots is not first" in text
    assert "behind rotting roots" in text
    assert text.count("Weights are in decibans") == 1


def test_a_date_that_was_told_is_so_many_days_ago(tmp_path, capsys):
    case = tmp_path / "case.toml"
    case.write_text(
        "date = 2026-11-08\n[answers]\nrepot_step = 'much_larger'\nwatering_after_repot = 'unchanged'\n"
        "days_since_repotted = 2026-09-30\n",
        encoding="utf-8",
    )
    _, text, _ = run(capsys, "why", str(case), "root_rot")
    assert "When was it last repotted? 39 days ago (you answered)" in " ".join(text.split())


def test_what_if_leaves_the_file_alone(capsys):
    before = Path(CASE).read_text(encoding="utf-8")
    _, text, _ = run(capsys, "whatif", CASE, "roots_look=pale_firm")
    assert 'answered "pale and firm"' in text
    assert Path(CASE).read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("why", CASE, "root_rott"), "did you mean 'root_rot'"),
        (("why", CASE, "root_rot", "--over", "root_rot"), "another cause than the first"),
        (("whatif", CASE, "medium_now"), "an equals sign"),
        (("whatif", CASE, "medium_nov=moist"), "did you mean 'medium_now'"),
        (("whatif", CASE, "medium_now=purple"), "medium_now=purple: "),
        (("whatif", CASE, "night_low_c=900"), "night_low_c=900: "),
        (("whatif", CASE, "days_since_watered=tomorrow"), "days_since_watered=tomorrow: "),
    ],
)
def test_bad_input_is_told_in_a_sentence(words, told, capsys):
    code, text, errors = run(capsys, *words)
    assert (code, text) == (2, "")
    assert told in errors
    assert len(errors.splitlines()) == 1
    assert ".." not in errors


@pytest.mark.parametrize("words", [("why", CASE, "root_rott"), ("whatif", CASE, "medium_now=purple")])
def test_names_are_checked_before_anything_is_computed(words, capsys, monkeypatch):
    monkeypatch.setattr("diagnose.diagnosis.Diagnostician.diagnose", lambda *_: pytest.fail("computed"))
    assert run(capsys, *words)[0] == 2


def test_a_cause_may_be_told_by_its_name(capsys):
    assert run(capsys, "why", CASE, "rotting roots")[1] == run(capsys, "why", CASE, "root_rot")[1]
