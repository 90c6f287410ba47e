"""Conditions that can never hold, and those that hold whenever their facts are known."""

from collections.abc import Iterator

from diagnose.problems import Problem
from diagnose.rulebase.check.entries import Conditional, conditionals, problem
from diagnose.rulebase.check.values import all_values, left_by, ways
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.logic import NegatedFindingError, negated
from diagnose.rulebase.resolve import conditions_in
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.vocabulary import Term, plain_number


def never_or_always(base: RuleBase) -> Iterator[Problem]:
    """Yield conditions, and parts of conditions, that say nothing or can say nothing."""
    for one in conditionals(base):
        yield from _looked_at(base, one)


def _looked_at(base: RuleBase, one: Conditional) -> Iterator[Problem]:
    parts = [(path, part) for path, part in conditions_in(one.condition, (one.field,)) if part.fact]
    dead, idle = [], []
    for path, part in parts:
        term = base.vocabulary[part.fact or ""]
        left = left_by(part, term)
        here = (one.table, one.entry, path)
        if not left:
            dead.append(problem(base, "never", here, f"{_said(part)}, which never holds", _values(term)))
        elif left == all_values(term):
            expected = f"less than all it can be ({_values(term)})"
            found = f"{_said(part)}, which always holds"
            idle.append(problem(base, "idle", here, found, expected, "leave it out or narrow it"))
    whole = (one.table, one.entry, (one.field,))
    if dead:
        yield from dead
    elif _contradicts_itself(base, one.condition, [part.fact for _, part in parts]):
        found, expected = "parts that contradict each other", "a condition that can hold"
        yield problem(base, "never", whole, found, expected, "use any instead of all, or widen a part")
    elif _always(base, one.condition):
        found, expected = "a condition that holds whatever is answered", "one that some answers make false"
        yield problem(base, "always", whole, found, expected, "narrow it")
    else:
        yield from idle


def _contradicts_itself(base: RuleBase, condition: Condition, facts: list[str | None]) -> bool:
    """Whether parts that can each hold cannot together: only parts on one fact can be so."""
    return len(set(facts)) < len(facts) and ways(condition, base.vocabulary) == frozenset()


def _always(base: RuleBase, condition: Condition) -> bool:
    if condition.all:
        return all(_always(base, part) for part in condition.all)
    if condition.fact:
        term = base.vocabulary[condition.fact]
        return left_by(condition, term) == all_values(term)
    try:
        return ways(negated(condition), base.vocabulary) == frozenset()
    except NegatedFindingError:
        return False


def _said(test: Condition) -> str:
    operand = test.operand(test.operator)
    value = list(operand) if isinstance(operand, tuple) else operand
    return f"{test.fact} {test.operator} {value}"


def _values(term: Term) -> str:
    if term.is_number:
        return f"{plain_number(term.least)} to {plain_number(term.most)} {term.unit}".rstrip()
    return "one of " + ", ".join(term.words)
