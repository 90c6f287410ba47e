"""The engine against a naive chainer and CLIPS, on random rule bases; DIAGNOSE_ENGINE_BASES asks for more."""

import os
from collections import Counter
from contextlib import closing

import pytest

from diagnose.engine import RuleEngine, limits
from oracles import Clips, holds, naive
from random_rules import Facts, Rules, random_base

BASES = int(os.environ.get("DIAGNOSE_ENGINE_BASES", "400"))
START = int(os.environ.get("DIAGNOSE_ENGINE_SEED", "0"))
SEEDS = range(START, START + BASES)


def fired(rules: Rules, facts: Facts) -> set[str]:
    with closing(RuleEngine(rules)) as engine:
        return {firing.rule for firing in engine.infer(facts)}


@pytest.mark.parametrize("seeds", [SEEDS[start::4] for start in range(4)], ids=("a", "b", "c", "d"))
def test_the_engine_fires_what_a_naive_chainer_fires(seeds: range) -> None:
    layers, held_back = Counter[int](), 0
    for seed in seeds:
        rules, cases, makers = random_base(seed)
        if limits(rules):
            held_back += 1
            continue
        given = (makers.finding(0), makers.finding(2))
        with closing(RuleEngine(rules)) as engine:
            for facts in cases:
                for known in ((), given):
                    expected, held = naive(rules, facts, known)
                    assert {firing.rule for firing in engine.infer(facts, known)} == expected, seed
                layers[max((int(finding.split("_")[1]) for finding in held), default=0)] += 1
    assert held_back < len(seeds) / 10
    assert layers[4] > layers.total() / 10  # the rules do chain, up to the topmost layer


def test_the_engine_fires_what_clips_fires() -> None:
    pytest.importorskip("clips", reason="clipspy cannot be imported", exc_type=ImportError)
    for seed in SEEDS[::6]:
        rules, cases, _ = random_base(seed)
        if limits(rules):
            continue
        clips = Clips(rules)
        with closing(RuleEngine(rules)) as engine:
            for facts in cases:
                assert {firing.rule for firing in engine.infer(facts)} == clips.run(facts), seed


def test_a_rule_left_out_would_be_noticed() -> None:
    noticed = 0
    for seed in SEEDS[:60]:
        rules, cases, _ = random_base(seed)
        if limits(rules):
            continue
        for facts in cases:
            expected, _ = naive(rules, facts)
            for rule in rules:
                if {rule.id, f"{rule.id}~otherwise"} & expected:
                    others = [other for other in rules if other is not rule]
                    assert fired(others, facts) != expected
                    noticed += 1
                    break
    assert noticed > 60


def test_a_firing_names_facts_and_findings_that_are_known_and_suffice() -> None:
    for seed in SEEDS[:120]:
        rules, cases, _ = random_base(seed)
        if limits(rules):
            continue
        conditions = {rule.id: rule.when for rule in rules}
        with closing(RuleEngine(rules)) as engine:
            for facts in cases:
                _, held = naive(rules, facts)
                for firing in engine.infer(facts):
                    assert facts.keys() >= set(firing.facts)
                    assert held >= set(firing.findings)
                    assert list(firing.facts) == sorted(set(firing.facts))
                    assert list(firing.findings) == sorted(set(firing.findings))
                    named = {name: facts[name] for name in firing.facts}
                    expected = "~otherwise" not in firing.rule
                    when = conditions[firing.rule.removesuffix("~otherwise")]
                    assert holds(when, named, set(firing.findings)) is expected
