"""Every worked example of the shipped rules does what it says. Ids read file::rule::example."""

from pathlib import Path

import pytest

from diagnose import locations
from diagnose.rulebase.load import load
from diagnose.rulecheck import worked_examples

BASE = load(locations.built_in_rules(), house_too=False)
WORKED = worked_examples(BASE)


def _id(one):
    file = Path(BASE.standing[one.table, one.rule.id].file).relative_to(locations.built_in_rules()).as_posix()
    return f"{file}::{one.rule.id}::{one.kind}_{one.index + 1}"


@pytest.mark.parametrize("one", WORKED, ids=_id)
def test_an_example_does_what_it_says(one):
    assert (one.rule.id in one.fired) == (one.kind == "fires"), one.facts


def test_every_rule_has_both_kinds():
    kinds = {(one.rule.id, one.kind) for one in WORKED}
    assert kinds == {
        (rule, kind)
        for rule in BASE.rules.keys() | BASE.evidence.keys() | BASE.conflicts.keys()
        for kind in ("fires", "silent")
    }


def test_small_engines_agree_with_the_whole_one(diagnostician):
    """What the examples are run with is a part of the rules; the whole rule base fires the same rule."""
    for one in [one for one in WORKED if one.table != "conflict"][::25]:
        fired = {firing.rule for firing in diagnostician._engine.infer(one.facts)}
        assert one.fired <= fired
        assert (one.rule.id in fired) == (one.rule.id in one.fired)
