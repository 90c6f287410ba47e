"""Checks of a loaded rule base: what loads and yet cannot be meant. One file a kind of slip."""

from collections.abc import Callable, Iterator

from diagnose.problems import Problem
from diagnose.rulebase.check import loops, possible, twins, usage
from diagnose.rulebase.check.catalogue import CHECKS, Check, severity
from diagnose.rulebase.load import at_line
from diagnose.rulebase.rulebase import RuleBase

__all__ = ["CHECKS", "Check", "check_base", "severity"]

_ALL: tuple[Callable[[RuleBase], Iterator[Problem]], ...] = (
    possible.never_or_always,
    usage.findings,
    usage.questions,
    usage.advice,
    usage.one_sided,
    loops.among_findings,
    twins.same_or_opposite,
)


def check_base(base: RuleBase) -> list[Problem]:
    """Return the faults found in loading, then what the checks of the whole rule base find, each with its line."""
    return [*base.problems, *(at_line(problem, base.texts) for check in _ALL for problem in check(base))]
