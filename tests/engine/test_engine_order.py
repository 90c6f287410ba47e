"""Order never matters, and knowing more only ever adds firings."""

from contextlib import closing
from unittest.mock import patch

from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.engine import Firing, RuleEngine, limits
from random_rules import random_base

seeds = st.integers(0, 10**9).filter(lambda seed: not limits(random_base(seed)[0]))


@settings(max_examples=60, deadline=None)
@given(seeds, st.data())
def test_the_order_of_rules_and_of_facts_does_not_matter(seed: int, data: st.DataObject) -> None:
    rules, cases, _ = random_base(seed)
    with (
        closing(RuleEngine(rules)) as engine,
        closing(RuleEngine(data.draw(st.permutations(rules)))) as other,
    ):
        for facts in cases:
            shuffled = dict(data.draw(st.permutations(list(facts.items()))))
            assert engine.infer(facts) == other.infer(shuffled)


@settings(max_examples=60, deadline=None)
@given(seeds, st.data())
def test_more_facts_only_add_firings_and_matched_names(seed: int, data: st.DataObject) -> None:
    rules, cases, _ = random_base(seed)
    with closing(RuleEngine(rules)) as engine:
        for facts in cases:
            fewer = {name: value for name, value in facts.items() if data.draw(st.booleans())}
            more = {firing.rule: firing for firing in engine.infer(facts)}
            for firing in engine.infer(fewer):
                assert set(firing.facts) <= set(more[firing.rule].facts)
                assert set(firing.findings) <= set(more[firing.rule].findings)


@settings(max_examples=40, deadline=None)
@given(seeds)
def test_findings_that_were_concluded_may_as_well_be_given(seed: int) -> None:
    rules, cases, _ = random_base(seed)
    gives = {rule.id: rule.gives for rule in rules if hasattr(rule, "gives")}
    with closing(RuleEngine(rules)) as engine:
        for facts in cases:
            firings = engine.infer(facts)
            held = {gives[firing.rule] for firing in firings if firing.rule in gives}
            assert engine.infer(facts, held) == firings
            assert list(firings) == sorted(firings, key=lambda firing: firing.rule)
            assert all(isinstance(firing, Firing) for firing in firings)


@settings(max_examples=60, deadline=None)
@given(seeds, st.integers(1, 8))
def test_a_rule_base_run_in_parts_fires_like_one_run_whole(seed: int, size: int) -> None:
    rules, cases, _ = random_base(seed)
    with (
        closing(RuleEngine(rules)) as whole,
        patch("diagnose.engine.session.PART", size),
        closing(RuleEngine(rules)) as parted,
    ):
        for facts in cases:
            assert parted.infer(facts) == whole.infer(facts)
