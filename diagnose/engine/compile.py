"""Rules as the engine takes them: each a plain conjunction, one pattern a fact or finding."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from diagnose.language import _, numeral, quoted
from diagnose.problems import Problem
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.logic import Branch, Comparison, NegatedFindingError, branch_count, branches, negated
from diagnose.rulebase.model import Evidence, Rule

MOST_BRANCHES = 64
"""Of one side of a rule; our own cap, so that a slip in nesting is named instead of filling the engine."""

OTHERWISE = "~otherwise"
"""What is added to an evidence rule's id when its condition is known to be false."""


@dataclass(frozen=True, slots=True, order=True)
class Pattern:
    """All that a rule asks of one fact, or that a finding is held."""

    kind: Literal["fact", "finding"]
    name: str
    tests: tuple[Comparison, ...] = ()


@dataclass(frozen=True, slots=True)
class Compiled:
    """One engine-ready rule: all its patterns must match.

    A rule with alternatives gives several, one a branch. `id` is the rule's id, or `id~otherwise`.
    """

    id: str
    branch: int
    patterns: tuple[Pattern, ...]
    gives: str | None

    def names(self, kind: Literal["fact", "finding"]) -> tuple[str, ...]:
        """Return the names of this kind that it asks for, sorted."""
        return tuple(pattern.name for pattern in self.patterns if pattern.kind == kind)


def compile_rules(rules: Iterable[Rule | Evidence]) -> tuple[tuple[Compiled, ...], tuple[Problem, ...]]:
    """Return the engine-ready rules, and the faults of the rules that could not be made so."""
    rules = tuple(rules)
    compiled: list[Compiled] = []
    problems = [
        _problem(name, _("{count} rules of this id").format(count=count), _("each id once"))
        for name, count in Counter(rule.id for rule in rules).items()
        if count > 1
    ]
    for rule in rules:
        try:
            for side, condition in _sides(rule):
                if (count := branch_count(condition)) > MOST_BRANCHES:
                    problems.append(_too_many(side, count))
                else:
                    compiled.extend(_compiled(side, condition, getattr(rule, "gives", None)))
        except NegatedFindingError as error:
            problems.append(_negated_finding(rule.id, error.finding))
    return tuple(compiled), tuple(problems)


def _sides(rule: Rule | Evidence) -> Iterator[tuple[str, Condition]]:
    yield rule.id, rule.when
    if isinstance(rule, Evidence) and rule.otherwise is not None:
        yield rule.id + OTHERWISE, negated(rule.when)


def _compiled(side: str, condition: Condition, gives: str | None) -> Iterator[Compiled]:
    for number, branch in enumerate(branches(condition)):
        yield Compiled(side, number, _patterns(branch), gives)


def _patterns(branch: Branch) -> tuple[Pattern, ...]:
    tests: dict[str, list[Comparison]] = {}
    for test in sorted(branch.tests, key=lambda test: (test.fact, test.operator, str(test.operand))):
        tests.setdefault(test.fact, []).append(test)
    facts = [Pattern("fact", name, tuple(of_it)) for name, of_it in tests.items()]
    return (*facts, *(Pattern("finding", name) for name in sorted(branch.findings)))


def _problem(rule: str, found: str, expected: str, mend: str = "") -> Problem:
    return Problem(None, None, f"rule {rule}", found, expected, mend, check="engine")


def _too_many(side: str, count: int) -> Problem:
    return _problem(
        side,
        _("a condition that multiplies out into {count} alternatives").format(count=numeral(count, ",")),
        _("at most {most}").format(most=MOST_BRANCHES),
        _("give a finding from one of its any or one_of parts, and use that finding here"),
    )


def _negated_finding(rule: str, finding: str) -> Problem:
    return _problem(
        rule,
        _("otherwise on a condition that uses the finding {finding}").format(finding=quoted(finding)),
        _("conditions on facts alone beside otherwise, since a finding is never known to be false"),
        _("name the facts behind the finding, or leave otherwise out"),
    )
