"""What a newcomer mistypes in the example of the house page, and what the check says of it."""

import re

import pytest

from diagnose import locations
from diagnose.report.rule_check import remark_line
from diagnose.rulebase.load import load
from diagnose.rulecheck import check_rules

PAGE = (locations.built_in_rules() / "house" / "README.md").read_text(encoding="utf-8")
EXAMPLE = re.search(r"```toml\n(.*?)```", PAGE, re.DOTALL)[1]

MISTAKES = [
    # what stands on the page, what is typed instead, the line it is told at, what is said
    ('cause = "root_rot"', 'cause = "rootrot"', "did you mean 'root_rot'"),
    ('speaks = "for"', "speaks = for", "put texts in straight quotes"),
    ('speaks = "for"', 'speaks: "for"', "write key = value"),
    ("[[evidence]]", "[evidence]", "write [[evidence]] with two brackets"),
    ('{ fact = "leaf_tips_drip", is', '{ fact = "leaf_tip_drip", is', "did you mean 'leaf_tips_drip'"),
    ('{ finding = "drips_at_night" }', '{ finding = "drip_at_night" }', "did you mean 'drips_at_night'"),
    ('{ finding = "drips_at_night" }', '{ fact = "drips_at_night", is = "yes" }', "it is a finding"),
    ('{ finding = "drips_at_night" }', '{ finding = "leaf_tips_drip" }', "it is a fact"),
    ('{ finding = "drips_at_night" }', '[ { finding = "drips_at_night" } ]', "take the [ ] away"),
    ('["moist", "soggy"]', '["moist", "wet"]', "expected one of bone_dry, top_dry, moist, soggy"),
    ('strength = "slight"', 'strength = "medium"', "'slight', 'moderate', 'substantial'"),
    ('is = "yes" }', 'equals = "yes" }', "expected one of fact, is, is_not, one_of, below"),
    ('is = "yes" }', "is = true }", 'write "yes" or "no"'),
    ('{ fact = "leaf_tips_drip", is = "yes" }', '{ fact = "humidity_percent", above = "30" }', "take the quotes away: 30"),
    ('{ fact = "leaf_tips_drip", is = "yes" }', '{ fact = "humidity_percent", above = 300 }', "which never holds"),
    ('{ fact = "leaf_tips_drip", is = "yes" }', '{ fact = "leaf_tips_drip" }', "exactly one of is, is_not"),
    ('id = "drips_when_seen"', 'id = "drips-when-seen"', "lower-case letters, digits and _"),
    ('id = "dripping_suggests_overwatering"', 'id = "drought_light_pot"', "override = true to replace it"),
    ("{medium_now}", "{medium now}", "did you mean 'medium_now'"),
    ('because = "The plant', 'becuase = "The plant', "did you mean 'because'"),
    ('silent = [ { leaf_tips_drip = "no", medium_now = "soggy" } ]', "", "expected 'silent'; add it"),
    ('"yes", medium_now = "moist"', '"yes" medium_now = "moist"', "a comma or the closing brace is missing"),
    ('medium_now = "bone_dry"', 'medium_now = "soggy"', "choose a near miss"),
    ('{ leaf_tips_drip = "yes", medium_now = "soggy" } ]', '{ leaf_tips_drip = "yes" } ]', "drips_at_night is not concluded"),
    ('{ leaf_tips_drip = "yes", medium_now = "soggy" } ]', '{ drips_at_night = "yes" } ]', "give the facts from which"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("page", "typed", "words"), MISTAKES, ids=[typed or "left out" for _, typed, _ in MISTAKES]
)
def test_a_typical_mistake_gets_a_useful_sentence(tmp_path, page, typed, words):
    assert page in EXAMPLE
    text = EXAMPLE.replace(page, typed, 1)
    file = tmp_path / "own.toml"
    file.write_text(text, encoding="utf-8")
    problems = [one for one in check_rules(load(locations.built_in_rules(), [file])) if one.file == str(file)]
    said = [remark_line(one) for one in problems]
    assert any(words in one for one in said), said
    assert 1 <= len(said) <= 3
    at = {one.line for one in problems}
    near = EXAMPLE[: EXAMPLE.index(page)].count("\n") + 1
    assert any(line is not None and abs(line - near) <= 10 for line in at)
