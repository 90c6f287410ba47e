"""Conditions that can never hold, and those that hold whenever their facts are known."""

from collections.abc import Iterator

from diagnose.language import _
from diagnose.problems import Problem, one_of, shown
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
            dead.append(
                problem(
                    base,
                    "never",
                    here,
                    _("{test}, which never holds").format(test=_said(part)),
                    _values(term),
                )
            )
        elif left == all_values(term):
            expected = _("less than all it can be ({values})").format(values=_values(term))
            found = _("{test}, which always holds").format(test=_said(part))
            idle.append(problem(base, "idle", here, found, expected, _("leave it out or narrow it")))
    whole = (one.table, one.entry, (one.field,))
    if dead:
        yield from dead
    elif _contradicts_itself(base, one.condition, [part.fact for _, part in parts]):
        found, expected = _("parts that contradict each other"), _("a condition that can hold")
        yield problem(base, "never", whole, found, expected, _("use any instead of all, or widen a part"))
    elif _always(base, one.condition):
        found = _("a condition that holds whatever is answered")
        expected = _("one that some answers make false")
        yield problem(base, "always", whole, found, expected, _("narrow it"))
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
    return f"{test.fact} {test.operator} {operand if isinstance(operand, str) else shown(operand)}"


def _values(term: Term) -> str:
    if term.is_number:
        said = _("{least} to {most} {unit}")
        bounds = said.format(
            least=plain_number(term.least), most=plain_number(term.most), unit=term.said_unit
        )
        return bounds.rstrip()
    return one_of(term.words)
