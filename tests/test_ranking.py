"""Ledgers and scores: weights, group discounts, order, verdicts."""

import math
from types import MappingProxyType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.engine import Firing
from diagnose.facts import Fact
from diagnose.ranking import discount, fill, order, rank
from diagnose.rulebase.model import Cause, Evidence
from diagnose.rulebase.rulebase import RuleBase, Standing
from diagnose.rulebase.strengths import DECIBANS, probability

STRENGTHS = st.sampled_from(list(DECIBANS))
SIDES = st.sampled_from(["for", "against"])


def cause(name, prior_db=-5.0):
    return Cause.model_validate(
        {
            "id": name,
            "name": name,
            "what": "what",
            "looks": "looks",
            "settles": "settles",
            "prior_db": prior_db,
            "origin": "common practice",
        }
    )


def evidence(number, of="a", speaks="for", strength="slight", group=None, otherwise=None):
    data = {
        "id": f"e{number}",
        "cause": of,
        "speaks": speaks,
        "strength": strength,
        "when": {"fact": "x", "is": "yes"},
        "because": "It is {x}.",
        "origin": "common practice",
        "fires": [{"x": "yes"}],
        "silent": [{"x": "no"}],
        "group": group,
        "otherwise": otherwise,
        "otherwise_because": "It is not so." if otherwise else "",
    }
    return Evidence.model_validate(data)


def base_of(rules, causes=("a", "b"), prior_db=-5.0):
    empty = MappingProxyType({})
    entries = [("evidence", rule.id) for rule in rules] + [("cause", one) for one in causes]
    return RuleBase(
        subjects=empty,
        questions=empty,
        findings=empty,
        rules=empty,
        evidence={rule.id: rule for rule in rules},
        causes={one: cause(one, prior_db) for one in causes},
        plants=empty,
        cautions=empty,
        advice=empty,
        sources=empty,
        vocabulary=empty,
        standing={entry: Standing("f", entry[0], 0, house=False) for entry in entries},
        hash="0",
    )


FACTS = {name: Fact(name, "yes", "yes", "answer") for name in "xpqrs"}
FACTS["plant"] = Fact("plant", "yes", "yes", "plant")


def ranked(rules, fired=None):
    names = [rule.id for rule in rules] if fired is None else fired
    return rank(base_of(rules), FACTS, [Firing(name, ("x",), ()) for name in names])


RULES = st.lists(
    st.tuples(st.sampled_from("ab"), SIDES, STRENGTHS, st.sampled_from([None, "g", "h"])), max_size=14
).map(lambda rows: [evidence(n, *row) for n, row in enumerate(rows)])


@given(RULES)
def test_a_score_is_exactly_the_sum_of_its_lines(rules):
    for one in ranked(rules).causes:
        assert one.score_db == sum(line.decibans for line in one.lines)
        assert one.score_db == math.fsum(line.decibans for line in reversed(one.lines))


@given(RULES, st.randoms(use_true_random=False))
def test_the_order_of_firings_never_matters(rules, random):
    names = [rule.id for rule in rules]
    shuffled = list(names)
    random.shuffle(shuffled)
    assert ranked(rules, names) == ranked(rules, shuffled)


@given(RULES, STRENGTHS, st.sampled_from([None, "g"]))
def test_evidence_for_a_cause_never_lowers_it_nor_moves_another(rules, strength, group):
    more = [*rules, evidence(99, "a", "for", strength, group)]
    assert ranked(more).of("a").score_db >= ranked(rules).of("a").score_db
    assert ranked(more).of("b").score_db == ranked(rules).of("b").score_db


@given(RULES, STRENGTHS, st.sampled_from([None, "g"]))
def test_evidence_against_a_cause_never_raises_it(rules, strength, group):
    more = [*rules, evidence(99, "a", "against", strength, group)]
    assert ranked(more).of("a").score_db <= ranked(rules).of("a").score_db


def test_of_a_group_each_line_counts_half_as_much_as_the_stronger_one_before():
    rules = [
        evidence(1, strength="strong", group="g"),
        evidence(2, strength="moderate", group="g"),
        evidence(3),
    ]
    first = ranked(rules).of("a")
    assert first.score_db == -5 + 12.5 + 5 / 2 + 2.5
    assert [(line.kind, line.decibans) for line in first.lines] == [
        ("prior", -5.0),
        ("evidence", 12.5),
        ("evidence", 5.0),
        ("evidence", 2.5),
        ("discount", -2.5),
    ]
    assert discount([7.5, -7.5]) == 0  # each way has its own strongest
    assert discount([2.5, 12.5, 5.0]) == -(2.5 + 12.5 + 5.0) + 12.5 + 5 / 2 + round(4 * 2.5 / 4) / 4


def test_the_otherwise_side_speaks_the_other_way():
    rules = [evidence(1, strength="strong", otherwise="moderate")]
    line = ranked(rules, ["e1~otherwise"]).of("a").lines[1]
    assert (line.decibans, line.text, line.rule) == (-5.0, "It is not so.", "e1")


def test_probability_is_good_1950():
    # I. J. Good, Probability and the Weighing of Evidence, 1950: +10 decibans are odds of 10 to 1, 3 dB nearly double them
    assert probability(0) == 0.5
    assert probability(10) == pytest.approx(10 / 11)
    assert probability(20) == pytest.approx(100 / 101)
    assert pytest.approx(2, rel=0.003) == 10 ** (3 / 10)


def test_strengths_lie_in_the_bands_of_jeffreys_1961():
    # Theory of Probability, 3rd ed. 1961, appendix B: grades of half a power of ten, 5 decibans each
    bands = {
        "slight": (0, 5),
        "substantial": (5, 10),
        "strong": (10, 15),
        "very_strong": (15, 20),
        "decisive": (20, 25),
    }
    for word, (low, high) in bands.items():
        assert DECIBANS[word] == (low + high) / 2
    assert DECIBANS["moderate"] == 5


def test_equal_scores_are_ordered_by_id():
    assert order({"b": 1.0, "a": 1.0, "c": 2.0}) == ["c", "a", "b"]


def test_verdicts():
    base = base_of([evidence(1, strength="decisive")])

    def verdict(facts):
        return rank(base, FACTS, [Firing("e1", facts, ())]).verdict

    assert verdict(("x", "p", "q")) == "too_little"
    assert verdict(("x", "p", "q", "plant")) == "too_little"
    assert verdict(("p", "q", "r", "s")) == "clear"
    assert rank(base, FACTS, [Firing("other", ("p", "q", "r", "s"), ())]).verdict == "none_likely"
    both = base_of([evidence(1, strength="strong"), evidence(2, "b", strength="strong")])
    found = rank(both, FACTS, [Firing("e1", ("p", "q"), ()), Firing("e2", ("r", "s"), ())])
    assert (found.verdict, found.close) == ("close", ("b",))


@given(st.text(max_size=40))
def test_a_template_fills_names_and_nothing_else(text):
    filled = fill(text, {})
    if "{" not in text:
        assert filled == text
    assert "__class__" not in fill("{x.__class__}", FACTS)


@given(st.lists(STRENGTHS, min_size=1, max_size=12))
def test_a_group_never_weighs_twice_its_strongest_line(strengths):
    weights = [DECIBANS[word] for word in strengths]
    assert max(weights) <= sum(weights) + discount(weights) <= 2 * max(weights)
