"""Which values make a condition true: the alternatives of a condition as the values left to each fact."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.logic import Comparison, branch_count, branches, settled
from diagnose.rulebase.vocabulary import Term

MOST_WAYS = 64
"""The engine refuses more; such a condition is told by its limits and not looked at here."""

Left = frozenset[str] | range
"""Words, or numbers as whole ten-thousandths."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way for a condition to hold: the values left to each fact it asks for, and the findings it needs."""

    left: frozenset[tuple[str, Left]]
    findings: frozenset[str]


def ways(condition: Condition, vocabulary: Mapping[str, Term]) -> frozenset[Way] | None:
    """Return every way for a condition to hold, none if it never can; None if they are too many to tell."""
    if branch_count(condition) > MOST_WAYS:
        return None
    found = set()
    for branch in branches(condition):
        left: dict[str, Left] = {}
        for test in branch.tests:
            left[test.fact] = _narrowed(left.get(test.fact, all_values(vocabulary[test.fact])), test)
        if all(left.values()):
            found.add(Way(frozenset(left.items()), branch.findings))
    return frozenset(found)


def left_by(test: Condition, term: Term) -> Left:
    """Return the values that pass a single test of a fact."""
    everything = all_values(term)
    if isinstance(everything, frozenset) and test.one_of:
        return everything & set(test.one_of)
    if test.between:
        low, high = test.between
        above = _narrowed(everything, Comparison(term.name, "at_least", low))
        return _narrowed(above, Comparison(term.name, "at_most", high))
    operand: Any = test.operand(test.operator)
    return _narrowed(everything, Comparison(term.name, test.operator, operand))


def all_values(term: Term) -> Left:
    """Return all that a fact can be."""
    return range(settled(term.least), settled(term.most) + 1) if term.is_number else frozenset(term.words)


def within(narrow: Collection[Way], wide: Collection[Way]) -> bool:
    """Whether all that makes one condition true makes the other true too."""
    return all(any(_covers(one, other) for one in wide) for other in narrow)


def _covers(wide: Way, narrow: Way) -> bool:
    values = dict(narrow.left)
    return wide.findings <= narrow.findings and all(
        fact in values and _inside(values[fact], left) for fact, left in wide.left
    )


def _inside(narrow: Left, wide: Left) -> bool:
    if isinstance(narrow, range) and isinstance(wide, range):
        return wide.start <= narrow.start and narrow.stop <= wide.stop
    return isinstance(narrow, frozenset) and isinstance(wide, frozenset) and narrow <= wide


def _narrowed(left: Left, test: Comparison) -> Left:
    if isinstance(left, frozenset):
        return left & {test.operand} if test.operator == "is" else left - {test.operand}
    number = settled(float(test.operand))
    low, high = {
        "is": (number, number + 1),
        "below": (left.start, number),
        "at_most": (left.start, number + 1),
        "above": (number + 1, left.stop),
        "at_least": (number, left.stop),
    }[test.operator]
    return range(max(low, left.start), min(high, left.stop))
