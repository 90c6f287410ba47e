"""All checks of a rule base: those of the rules alone, then those that run them in the engine."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from diagnose.case import Case
from diagnose.diagnosis import Diagnostician
from diagnose.engine import OTHERWISE, RuleEngine, limits
from diagnose.language import _
from diagnose.problems import Problem
from diagnose.rulebase.check import check_base
from diagnose.rulebase.check.entries import problem
from diagnose.rulebase.load import at_line
from diagnose.rulebase.logic import truth
from diagnose.rulebase.model import Conflict, Evidence, Facts, Rule
from diagnose.rulebase.resolve import conditions_in
from diagnose.rulebase.rulebase import RuleBase

_TOGETHER = 16
"""Rules tried in one engine: starting a session takes as long as there are rules in it."""


AnyRule = Rule | Evidence | Conflict


@dataclass(frozen=True, slots=True)
class Worked:
    """One worked example of a rule, and which rules fired on it."""

    table: str
    rule: AnyRule
    kind: Literal["fires", "silent"]
    index: int
    facts: Facts
    fired: frozenset[str]

    @property
    def holds(self) -> bool:
        """Whether the example does what it says."""
        return (self.rule.id in self.fired) == (self.kind == "fires")


def check_rules(base: RuleBase, demo_cases: Callable[[], Iterable[Case]] = tuple) -> list[Problem]:
    """Return all that is wrong with a rule base, and advice (see `diagnose.rulebase.check.severity`).

    `demo_cases` is only called if some rule's `otherwise` speaks in no worked example.
    """
    problems = check_base(base)
    too_much = [_at_rule(base, one) for one in limits([*base.rules.values(), *base.evidence.values()])]
    if too_much:  # the engine would refuse them
        return problems + too_much
    worked = worked_examples(base)
    found = [*_examples(base, worked), *_unseen(base, worked, demo_cases)]
    never = {
        (one.file, *one.path[:2]) for one in problems if one.check == "never"
    }  # why their examples fail is told
    return problems + [at_line(one, base.texts) for one in found if (one.file, *one.path[:2]) not in never]


def worked_examples(base: RuleBase) -> list[Worked]:
    """Return every worked example with what fires on it, each run with all rules that its rule rests on."""
    giving: dict[str, list[Rule]] = {}
    for rule in base.rules.values():
        giving.setdefault(rule.gives, []).append(rule)
    rules: list[tuple[str, AnyRule]] = [("rule", rule) for rule in base.rules.values()]
    rules += [("evidence", evidence) for evidence in base.evidence.values()]
    rules += [("conflict", conflict) for conflict in base.conflicts.values()]
    return [
        one
        for start in range(0, len(rules), _TOGETHER)
        for one in _run(rules[start : start + _TOGETHER], giving)
    ]


def _run(rules: Sequence[tuple[str, AnyRule]], giving: dict[str, list[Rule]]) -> Iterator[Worked]:
    needed = _with_what_they_rest_on([rule for _table, rule in rules], giving)
    engine = RuleEngine([rule for rule in needed.values() if not isinstance(rule, Conflict)])
    for table, rule in rules:
        for kind, examples in (("fires", rule.fires), ("silent", rule.silent)):
            for index, facts in enumerate(examples):
                fired = {firing.rule for firing in engine.infer(facts)}
                if isinstance(rule, Conflict) and truth(rule.when, facts, _held(needed, fired)) == "true":
                    fired.add(rule.id)
                yield Worked(table, rule, kind, index, facts, frozenset(fired))  # type: ignore[arg-type]
    engine.close()


def _with_what_they_rest_on(rules: Sequence[AnyRule], giving: dict[str, list[Rule]]) -> dict[str, AnyRule]:
    needed = {rule.id: rule for rule in rules}
    work = list(rules)
    while work:
        for _path, test in conditions_in(work.pop().when, ()):
            for rule in giving.get(test.finding or "", ()):
                if rule.id not in needed:
                    needed[rule.id] = rule
                    work.append(rule)
    return needed


def _held(rules: Mapping[str, AnyRule], fired: Collection[str]) -> set[str]:
    """Return the findings that the rules which fired conclude."""
    return {rule.gives for name in fired if isinstance(rule := rules.get(name), Rule)}


def _examples(base: RuleBase, worked: Sequence[Worked]) -> Iterator[Problem]:
    for one in worked:
        if one.holds:
            continue
        here = (one.table, one.rule, (one.kind, one.index))
        if one.kind == "silent":
            found, expected = _("an example that makes the rule fire"), _("one on which it stays silent")
            yield problem(
                base, "example", here, found, expected, _("choose a near miss, or move it to fires")
            )
        else:
            found, expected = _("an example on which the rule stays silent"), _("one that makes it fire")
            yield problem(base, "example", here, found, expected, _what_lacks(base, one))


def _what_lacks(base: RuleBase, one: Worked) -> str:
    held = _held(base.rules, one.fired)
    lacking = []
    for _path, test in conditions_in(one.rule.when, ()):
        state = truth(test, one.facts, held)
        if test.finding and state != "true":
            lacking.append(_("{finding} is not concluded").format(finding=test.finding))
        elif state == "unknown":
            lacking.append(_("{fact} is not given").format(fact=test.fact))
        elif state == "false":
            lacking.append(
                _("{fact} = {value} does not pass").format(fact=test.fact, value=one.facts[test.fact or ""])
            )
    return _("in it {lacking}").format(lacking=", ".join(dict.fromkeys(lacking)))


def _unseen(
    base: RuleBase, worked: Sequence[Worked], demo_cases: Callable[[], Iterable[Case]]
) -> Iterator[Problem]:
    """Yield rules whose `otherwise` is never seen; that the condition itself holds, examples must show."""
    sides = {one.id + OTHERWISE: one for one in base.evidence.values() if one.otherwise}
    unseen = sides.keys() - {name for one in worked for name in one.fired}
    if not unseen:
        return
    diagnostician = Diagnostician(base)
    unseen -= {firing.rule for case in demo_cases() for firing in diagnostician.diagnose(case).firings}
    diagnostician.close()
    for name, rule in sides.items():
        if name in unseen:
            found = _("no worked example and no demo case in which it speaks")
            mend = _("add an example to silent in which the condition is known to be false")
            yield problem(base, "unseen", ("evidence", rule, ("otherwise",)), found, _("one at least"), mend)


def _at_rule(base: RuleBase, limit: Problem) -> Problem:
    """Return a limit of the engine with the place of the rule that it names, if it names one."""
    rule_id = limit.key.removeprefix("rule ").removesuffix(OTHERWISE)
    table = "rule" if rule_id in base.rules else "evidence"
    rule = base.rules.get(rule_id) or base.evidence.get(rule_id)
    if rule is None or not limit.key.startswith("rule "):
        return limit
    told = problem(base, "engine", (table, rule, ("when",)), limit.found, limit.expected, limit.mend)
    return at_line(told, base.texts)
