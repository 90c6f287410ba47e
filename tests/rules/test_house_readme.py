"""The house-rule page tells the truth: its whole example loads, is asked, and speaks in the ledger as house."""

import datetime as dt
import re

from diagnose import locations
from diagnose.case import Case
from diagnose.diagnosis import Diagnostician
from diagnose.rulebase.load import load


def test_the_example_of_the_page_works(tmp_path):
    page = (locations.built_in_rules() / "house" / "README.md").read_text(encoding="utf-8")
    example = re.search(r"```toml\n(.*?)```", page, re.DOTALL)
    (tmp_path / "own.toml").write_text(example[1], encoding="utf-8")
    base = load(locations.built_in_rules(), [tmp_path])
    assert base.problems == ()
    asked = {question.id for question in base.asked()}
    assert "leaf_tips_drip" in asked
    case = Case(date=dt.date(2026, 1, 14), answers={"leaf_tips_drip": True, "medium_now": "soggy"})
    lines = Diagnostician(base).diagnose(case).ranking.of("root_rot").lines
    (line,) = [line for line in lines if line.rule == "dripping_suggests_overwatering"]
    assert line.house
    assert line.decibans == 2.5


def test_every_operator_stands_on_the_page():
    from diagnose.rulebase.conditions import OPERATORS

    page = (locations.built_in_rules() / "house" / "README.md").read_text(encoding="utf-8")
    assert all(f"`{operator}" in page for operator in OPERATORS)
