"""The logic of conditions: their truth, their negation, and the alternatives that they come down to.

Three-valued (Kleene): a condition on an unknown fact is neither true nor false, and a finding that is not
held is unknown, never false. Numbers are compared to four decimals.
"""

import itertools
import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from diagnose.rulebase.conditions import Condition, Truth

DECIMALS = 4
_SCALE = 10_000
_COUNTED = 10**9

_OPPOSITES = {
    "is": "is_not",
    "is_not": "is",
    "below": "at_least",
    "at_least": "below",
    "above": "at_most",
    "at_most": "above",
}


class NegatedFindingError(Exception):
    """A finding cannot be negated: while it is not held it is unknown, not false."""

    def __init__(self, finding: str) -> None:
        self.finding = finding
        super().__init__(f"finding {finding!r} cannot be known to be false")


@dataclass(frozen=True, slots=True, order=True)
class Comparison:
    """One comparison of one fact: is, is_not, below, above, at_least or at_most."""

    fact: str
    operator: str
    operand: float | str

    def holds(self, value: float | str) -> bool:
        """Tell whether a known value passes; TypeError if a number meets a word."""
        if isinstance(value, str) != isinstance(self.operand, str):
            raise TypeError(f"fact {self.fact!r} is {value!r}, but is compared with {self.operand!r}")
        if isinstance(value, str) or isinstance(self.operand, str):
            return (value == self.operand) == (self.operator == "is")
        known, wanted = settled(value), settled(self.operand)
        return {
            "is": known == wanted,
            "below": known < wanted,
            "above": known > wanted,
            "at_least": known >= wanted,
            "at_most": known <= wanted,
        }[self.operator]


@dataclass(frozen=True, slots=True)
class Branch:
    """One way to make a condition true: every test passes and every finding is held."""

    tests: frozenset[Comparison] = frozenset()
    findings: frozenset[str] = frozenset()

    @property
    def possible(self) -> bool:
        """False if it wants two words of one fact, or a word and not that word."""
        words = [test for test in self.tests if isinstance(test.operand, str)]
        wanted = {test.fact: test.operand for test in words if test.operator == "is"}
        return all(
            test.fact not in wanted or (test.operand == wanted[test.fact]) == (test.operator == "is")
            for test in words
        )


def settled(number: float) -> int:
    """Return a number as whole ten-thousandths: what is compared, here and in the engine alike."""
    return round(round(number, DECIMALS) * _SCALE)


def truth(condition: Condition, facts: Mapping[str, float | str], findings: Collection[str]) -> Truth:
    """Return whether a condition is true, false or unknown, given the known facts and the findings held."""
    if condition.finding is not None:
        return "true" if condition.finding in findings else "unknown"
    if condition.fact is not None:
        if condition.fact not in facts:
            return "unknown"
        holds = any(
            all(test.holds(facts[condition.fact]) for test in branch.tests) for branch in _ways(condition)
        )
        return "true" if holds else "false"
    settles: Truth = "true" if condition.any else "false"
    parts = {truth(part, facts, findings) for part in condition.any or condition.all or ()}
    if settles in parts:
        return settles
    return "unknown" if "unknown" in parts else ("false" if condition.any else "true")


def negated(condition: Condition) -> Condition:
    """Return the condition that is true exactly when this one is known to be false.

    Raises NegatedFindingError if the condition uses a finding.
    """
    if condition.finding is not None:
        raise NegatedFindingError(condition.finding)
    if condition.all:
        return Condition(any=tuple(negated(part) for part in condition.all))
    if condition.any:
        return Condition(all=tuple(negated(part) for part in condition.any))
    operator = condition.operator
    operand = condition.operand(operator)
    if condition.one_of:
        return Condition(all=tuple(_on(condition.fact, "is_not", word) for word in condition.one_of))
    if condition.between:
        low, high = condition.between
        return Condition(any=(_on(condition.fact, "below", low), _on(condition.fact, "above", high)))
    if operator == "is" and not isinstance(operand, str):
        return Condition(any=(_on(condition.fact, "below", operand), _on(condition.fact, "above", operand)))
    return _on(condition.fact, _OPPOSITES[operator], operand)


def branch_count(condition: Condition) -> int:
    """Return how many alternatives `branches` would multiply this condition out into, at most; counted to 1e9."""
    if condition.any:
        return min(_COUNTED, sum(branch_count(part) for part in condition.any))
    if condition.all:
        return min(_COUNTED, math.prod([branch_count(part) for part in condition.all]))
    return len(condition.one_of or (0,))


def branches(condition: Condition) -> tuple[Branch, ...]:
    """Return the alternatives, any one of which makes the condition true (its disjunctive normal form).

    Each alternative once; those that want two words of one fact, which nothing can satisfy, are left out.
    """
    return tuple(dict.fromkeys(branch for branch in _ways(condition) if branch.possible))


def _ways(condition: Condition) -> Iterable[Branch]:
    if condition.any:
        return itertools.chain.from_iterable(_ways(part) for part in condition.any)
    if condition.all:
        return (_together(parts) for parts in itertools.product(*(_ways(part) for part in condition.all)))
    if condition.finding is not None:
        return (Branch(findings=frozenset((condition.finding,))),)
    fact = condition.fact or ""
    if condition.one_of:
        return tuple(Branch(frozenset((Comparison(fact, "is", word),))) for word in condition.one_of)
    if condition.between:
        low, high = condition.between
        return (Branch(frozenset((Comparison(fact, "at_least", low), Comparison(fact, "at_most", high)))),)
    operand: Any = condition.operand(condition.operator)
    return (Branch(frozenset((Comparison(fact, condition.operator, operand),))),)


def _together(parts: tuple[Branch, ...]) -> Branch:
    return Branch(
        frozenset().union(*(part.tests for part in parts)),
        frozenset().union(*(part.findings for part in parts)),
    )


def _on(fact: str | None, operator: str, operand: object) -> Condition:
    return Condition.model_validate({"fact": fact, operator: operand})
