"""Conditions that can never hold, and those that hold whenever their facts are known."""

from collections.abc import Iterator

from diagnose.problems import Problem
from diagnose.rulebase.check.entries import Conditional, conditionals, problem
from diagnose.rulebase.check.values import all_values, ways
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
    tests = [(path, test) for path, test in conditions_in(one.condition, (one.field,)) if test.fact]
    idle = []
    dead = False
    for path, test in tests:
        term = base.vocabulary[test.fact or ""]
        here = (one.table, one.entry, path)
        left = ways(test, base.vocabulary)
        if not left:
            dead = True
            yield problem(base, "never", here, f"{_said(test)}, which never holds", _values(term))
        elif _whole(test, term, base):
            idle.append(
                problem(
                    base,
                    "idle",
                    here,
                    f"{_said(test)}, which always holds",
                    f"less than all it can be ({_values(term)})",
                    "leave it out or narrow it",
                )
            )
    if dead:
        return
    here = (one.table, one.entry, (one.field,))
    if ways(one.condition, base.vocabulary) == frozenset():
        yield problem(
            base,
            "never",
            here,
            "parts that contradict each other",
            "a condition that can hold",
            "use any instead of all, or widen a part",
        )
    elif _always(one.condition, base):
        yield problem(
            base,
            "always",
            here,
            "a condition that holds whatever is answered",
            "one that some answers make false",
            "narrow it",
        )
    else:
        yield from idle


def _whole(test: Condition, term: Term, base: RuleBase) -> bool:
    """Whether a single test leaves its fact all it can be (an exact number never does)."""
    covered = [dict(way.left)[term.name] for way in ways(test, base.vocabulary) or ()]
    everything = all_values(term)
    if isinstance(everything, range):
        return everything in covered
    return frozenset().union(*(left for left in covered if isinstance(left, frozenset))) == everything


def _always(condition: Condition, base: RuleBase) -> bool:
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
