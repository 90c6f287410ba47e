"""Supposing other facts gives what a case with those facts would give."""

import random
from collections.abc import Iterator
from contextlib import closing

import pytest

from diagnose.engine import Firing, RuleEngine, WhatIf, limits
from diagnose.engine.whatif import Remembered, _Part
from random_rules import Facts, Makers, Rules, evidence, random_base, rule

Changes = dict[str, float | str | None]


def bases(count: int) -> Iterator[tuple[Rules, list[Facts], Makers]]:
    """Yield random rule bases, some of them larger, so that one fact reaches a small share of the rules."""
    for seed in range(count):
        rules, cases, makers = random_base(seed)
        if seed % 4 == 0:
            makers = Makers(makers.rng, facts=40, nested=False)
            rules, cases = makers.rules(80), [makers.case(0.6), makers.case(0.2)]
        if not limits(rules):
            yield rules, cases, makers


def changes_to(facts: Facts, makers: Makers, count: int) -> Changes:
    """Draw changes: a new value or, a third of the time, unknown."""
    numbers = makers.rng.sample(range(makers.facts), min(count, makers.facts))
    return {
        makers.name(number): None if makers.rng.random() < 0.33 else makers.value(number)
        for number in numbers
    }


def changed(facts: Facts, changes: Changes) -> Facts:
    return {name: value for name, value in (facts | changes).items() if value is not None}


@pytest.mark.parametrize("count", [1, 2, 5])
def test_supposing_equals_inferring_anew(count: int) -> None:
    differ = 0
    for rules, cases, makers in bases(60):
        with closing(RuleEngine(rules)) as engine, closing(WhatIf(rules)) as what_if:
            for facts in cases:
                firings = engine.infer(facts)
                for _ in range(4):
                    changes = changes_to(facts, makers, count)
                    expected = engine.infer(changed(facts, changes))
                    assert what_if.suppose(facts, firings, changes) == expected
                    differ += expected != firings
    assert differ > 60  # most changes do change something, so equality is no accident


def test_a_long_walk_of_supposed_changes_stays_right() -> None:
    makers = Makers(random.Random(3), facts=40, nested=False)
    rules = makers.rules(100)
    with closing(RuleEngine(rules)) as engine, closing(WhatIf(rules)) as what_if:
        facts: Facts = {}
        firings = engine.infer(facts)
        for _ in range(300):
            changes = changes_to(facts, makers, 2)
            firings, facts = what_if.suppose(facts, firings, changes), changed(facts, changes)
            assert firings == engine.infer(facts)


RULES: Rules = [
    rule("sees", {"fact": "a", "above": 1}, "f"),
    evidence("from_f", {"finding": "f"}),
    evidence("alone", {"fact": "b", "is": "yes"}, otherwise=True),
    evidence("both", {"all": [{"finding": "f"}, {"fact": "b", "is": "yes"}]}),
    evidence("apart", {"fact": "c", "is": "yes"}),
    evidence("too", {"fact": "c", "is": "no"}),
    evidence("three", {"fact": "d", "is": "no"}),
]


def ids(firings: tuple[Firing, ...]) -> list[str]:
    return [firing.rule for firing in firings]


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, ["apart", "from_f", "sees"]),
        ({"unheard_of": 3}, ["apart", "from_f", "sees"]),
        ({"a": 2}, ["apart", "from_f", "sees"]),
        ({"a": None}, ["apart"]),
        ({"b": "yes"}, ["alone", "apart", "both", "from_f", "sees"]),
        ({"b": "no"}, ["alone~otherwise", "apart", "from_f", "sees"]),
        ({"b": "yes", "a": 0, "c": None}, ["alone"]),
        ({"a": None, "c": None}, []),
    ],
)
def test_changes_removals_and_facts_that_no_rule_asks_for(changes: Changes, expected: list[str]) -> None:
    facts: Facts = {"a": 2, "c": "yes"}
    with closing(RuleEngine(RULES)) as engine, closing(WhatIf(RULES)) as what_if:
        assert ids(what_if.suppose(facts, engine.infer(facts), changes)) == expected
        assert facts == {"a": 2, "c": "yes"}


def test_only_rules_within_reach_are_run_again(monkeypatch: pytest.MonkeyPatch) -> None:
    run: list[frozenset[str]] = []
    with closing(RuleEngine(RULES)) as engine, closing(WhatIf(RULES)) as what_if:
        rerun = what_if._rerun

        def watched(
            name: str, part: _Part, facts: Facts, fired: tuple[Firing, ...], remembered: Remembered
        ) -> tuple[Firing, ...]:
            run.append(part.rules)
            return rerun(name, part, facts, fired, remembered)

        monkeypatch.setattr(what_if, "_rerun", watched)
        what_if.suppose({"a": 2}, engine.infer({"a": 2}), {"c": "yes"})
        what_if.suppose({"c": "yes"}, engine.infer({"c": "yes"}), {"a": 2})
    assert run == [{"apart", "too"}, {"sees", "from_f", "both"}]


@pytest.mark.parametrize("changes", [{"a": 2}, {"a": 9, "c": "yes"}, {"a": None}, {"c": "no"}])
def test_what_is_remembered_fires_as_it_did(changes: Changes) -> None:
    facts: Facts = {"a": 1, "c": "yes"}
    with closing(RuleEngine(RULES)) as engine, closing(WhatIf(RULES)) as what_if:
        remembered: Remembered = {}
        now = engine.infer(facts)
        afresh = what_if.suppose(facts, now, changes)
        for _again in range(2):
            assert what_if.suppose(facts, now, changes, remembered) == afresh
            what_if.suppose(facts, now, {"a": 3}, remembered)
