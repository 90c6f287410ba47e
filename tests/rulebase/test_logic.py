"""Truth, negation and alternatives of conditions, over all small cases and random ones."""

import itertools
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.logic import (
    Branch,
    Comparison,
    NegatedFindingError,
    branch_count,
    branches,
    negated,
    settled,
    truth,
)

WORDS = ("a", "b", "c")
NUMBERS = (0, 1, 2.5)
Facts = dict[str, float | str]


def when(**fields: Any) -> Condition:
    return Condition.model_validate(fields)


word_tests = st.one_of(
    st.fixed_dictionaries({"fact": st.sampled_from(["v", "w"]), "is": st.sampled_from(WORDS)}),
    st.fixed_dictionaries({"fact": st.sampled_from(["v", "w"]), "is_not": st.sampled_from(WORDS)}),
    st.fixed_dictionaries(
        {"fact": st.just("w"), "one_of": st.lists(st.sampled_from(WORDS), min_size=1, max_size=2)}
    ),
)
number_tests = st.sampled_from(["is", "below", "above", "at_least", "at_most"]).flatmap(
    lambda operator: st.fixed_dictionaries({"fact": st.just("x"), operator: st.sampled_from(NUMBERS)})
)
ranges = st.tuples(st.sampled_from(NUMBERS), st.sampled_from(NUMBERS)).map(
    lambda ends: {"fact": "x", "between": sorted(ends)}
)
findings = st.fixed_dictionaries({"finding": st.sampled_from(["f", "g"])})


def nested(leaves: st.SearchStrategy[dict[str, Any]]) -> st.SearchStrategy[Condition]:
    trees = st.recursive(
        leaves,
        lambda parts: st.builds(
            lambda kind, some: {kind: some},
            st.sampled_from(["all", "any"]),
            st.lists(parts, min_size=1, max_size=3),
        ),
        max_leaves=7,
    )
    return trees.map(Condition.model_validate)


on_facts = nested(st.one_of(word_tests, number_tests, ranges))
conditions = nested(st.one_of(word_tests, number_tests, ranges, findings))
cases: st.SearchStrategy[Facts] = st.fixed_dictionaries(
    {},
    optional={
        "v": st.sampled_from(WORDS),
        "w": st.sampled_from(WORDS),
        "x": st.sampled_from((-1, 0, 0.5, 1, 2.5, 9)),
    },
)
held = st.sets(st.sampled_from(["f", "g"]))


@pytest.mark.parametrize(
    ("test", "passing", "failing"),
    [
        ({"is": "yes"}, ["yes"], ["no"]),
        ({"is": 2}, [2, 2.0, 2.00004], [2.0001, 1]),
        ({"is_not": "yes"}, ["no"], ["yes"]),
        ({"one_of": ["a", "b"]}, ["a", "b"], ["c"]),
        ({"below": 2}, [1.9999, -5], [2, 1.99996]),
        ({"above": 2}, [2.0001], [2, 2.00004]),
        ({"at_least": 2}, [2, 1.99996], [1.9999]),
        ({"at_most": 2}, [2, 2.00004], [2.0001]),
        ({"between": [1, 2]}, [1, 2, 1.5], [0.9999, 2.0001]),
    ],
)
def test_each_operator_is_true_false_or_unknown(
    test: dict[str, Any], passing: list[float | str], failing: list[float | str]
) -> None:
    condition = when(fact="x", **test)
    assert [truth(condition, {"x": value}, ()) for value in passing] == ["true"] * len(passing)
    assert [truth(condition, {"x": value}, ()) for value in failing] == ["false"] * len(failing)
    assert truth(condition, {"y": passing[0]}, ()) == "unknown"


def test_all_and_any_are_kleenes_three_valued_and_and_or() -> None:
    """Kleene, Introduction to Metamathematics, 1952, section 64: and is the least, or the greatest value."""
    order = ("false", "unknown", "true")
    known = {"true": 1.0, "false": 0.0}
    for left, right in itertools.product(order, repeat=2):
        facts: Facts = {name: known[side] for name, side in (("x", left), ("y", right)) if side in known}
        parts = (when(fact="x", **{"is": 1}), when(fact="y", **{"is": 1}))
        assert truth(Condition(all=parts), facts, ()) == min(left, right, key=order.index)
        assert truth(Condition(any=parts), facts, ()) == max(left, right, key=order.index)


def test_a_finding_that_is_not_held_is_unknown() -> None:
    assert truth(when(finding="f"), {}, {"f"}) == "true"
    assert truth(when(finding="f"), {}, ()) == "unknown"


@given(on_facts, cases)
def test_negation_swaps_true_and_false_and_keeps_unknown(condition: Condition, facts: Facts) -> None:
    swapped = {"true": "false", "false": "true", "unknown": "unknown"}
    assert truth(negated(condition), facts, ()) == swapped[truth(condition, facts, ())]


@given(conditions, cases, held)
def test_a_condition_is_true_exactly_if_one_of_its_branches_is(
    condition: Condition, facts: Facts, found: set[str]
) -> None:
    def satisfied(branch: Branch) -> bool:
        tests = all(test.fact in facts and test.holds(facts[test.fact]) for test in branch.tests)
        return tests and branch.findings <= found

    any_satisfied = any(satisfied(branch) for branch in branches(condition))
    assert any_satisfied == (truth(condition, facts, found) == "true")


@given(conditions)
def test_branches_are_no_more_than_counted_and_each_is_there_once(condition: Condition) -> None:
    made = branches(condition)
    assert len(made) == len(set(made)) <= branch_count(condition)


@given(conditions, cases, cases, held)
def test_knowing_more_never_unsettles_what_was_settled(
    condition: Condition, facts: Facts, more: Facts, found: set[str]
) -> None:
    before = truth(condition, facts, found)
    if before != "unknown":
        assert truth(condition, more | facts, found) == before


def test_a_finding_is_never_negated_however_deep() -> None:
    deep = when(any=[{"fact": "x", "is": 1}, {"all": [{"fact": "y", "is": 2}, {"finding": "f"}]}])
    with pytest.raises(NegatedFindingError, match="'f'"):
        negated(deep)


def test_two_words_of_one_fact_make_no_branch() -> None:
    twice = when(
        all=[
            {"fact": "w", "one_of": ["a", "b"]},
            {"fact": "w", "one_of": ["b", "c"]},
            {"fact": "w", "is_not": "c"},
        ]
    )
    only = Branch(frozenset({Comparison("w", "is", "b"), Comparison("w", "is_not", "c")}))
    assert branches(twice) == (only,)
    assert branch_count(twice) == 4


def test_counting_does_not_multiply_out() -> None:
    wide = when(all=[{"fact": f"x{n}", "one_of": [f"w{m}" for m in range(10)]} for n in range(40)])
    assert branch_count(wide) == 10**9  # as far as it is counted


def test_a_number_never_meets_a_word() -> None:
    with pytest.raises(TypeError, match="'x' is '15'"):
        truth(when(fact="x", above=2), {"x": "15"}, ())
    with pytest.raises(TypeError, match="'x' is 15"):
        truth(when(fact="x", is_not="a"), {"x": 15}, ())


def test_numbers_settle_at_four_decimals() -> None:
    assert [settled(x) for x in (0.0001, 0.00004, -0.0, 1.00005, 150000, -2.5)] == [
        1, 0, 0, round(round(1.00005, 4) * 10000), 1_500_000_000, -25000
    ]  # fmt: skip
