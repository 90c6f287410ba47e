"""Findings that need each other in a circle: none of them can then be concluded by way of the others."""

from collections import defaultdict
from collections.abc import Iterator, Mapping

from diagnose.language import _
from diagnose.problems import Problem
from diagnose.rulebase.check.entries import problem
from diagnose.rulebase.model import Rule
from diagnose.rulebase.resolve import conditions_in
from diagnose.rulebase.rulebase import RuleBase


def among_findings(base: RuleBase) -> Iterator[Problem]:
    """Yield one problem for every rule that closes a circle."""
    needs: dict[str, list[tuple[str, Rule]]] = defaultdict(list)
    for rule in base.rules.values():
        for _path, test in conditions_in(rule.when, ()):
            if test.finding:
                needs[rule.gives].append((test.finding, rule))
    done: set[str] = set()
    for start in list(needs):
        yield from _from(base, start, needs, done)


def _from(
    base: RuleBase, start: str, needs: Mapping[str, list[tuple[str, Rule]]], done: set[str]
) -> Iterator[Problem]:
    """Walk depth first, without recursion; what is met again on the way down closes a circle."""
    way = [start]
    waiting = [iter(needs.get(start, ()))]
    while way:
        needed, rule = next(waiting[-1], (None, None))
        if needed is None or rule is None:
            done.add(way.pop())
            waiting.pop()
        elif needed in way:
            circle = " → ".join([*way[way.index(needed) :], needed])
            yield problem(
                base,
                "loop",
                ("rule", rule, ("when",)),
                _("a circle, each needing the next: {circle}").format(circle=circle),
                _("findings that rest on facts in the end"),
                _("take one of these conditions out"),
            )
        elif needed not in done:
            way.append(needed)
            waiting.append(iter(needs.get(needed, ())))
