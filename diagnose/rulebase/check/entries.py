"""What the checks share: every condition of a rule base, and a problem at a place in an entry."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.language import _
from diagnose.problems import Problem
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.logic import NegatedFindingError, negated
from diagnose.rulebase.model import Advice, Conflict, Evidence, Question, Rule
from diagnose.rulebase.rulebase import AnyEntry, RuleBase

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Conditional:
    """An entry's condition and the field it stands in."""

    table: str
    entry: Question | Rule | Evidence | Conflict | Advice
    field: str
    condition: Condition


@dataclass(frozen=True, slots=True)
class Side:
    """One thing that a rule says: of what it speaks, on which side, and when."""

    table: str
    entry: Rule | Evidence
    field: str
    about: str
    speaks: str
    condition: Condition


def conditionals(base: RuleBase) -> Iterator[Conditional]:
    """Yield every condition of the rule base."""
    for question in base.questions.values():
        if question.ask_when:
            yield Conditional("question", question, "ask_when", question.ask_when)
    for rule in base.rules.values():
        yield Conditional("rule", rule, "when", rule.when)
    for evidence in base.evidence.values():
        yield Conditional("evidence", evidence, "when", evidence.when)
    for conflict in base.conflicts.values():
        yield Conditional("conflict", conflict, "when", conflict.when)
    for advice in base.advice.values():
        if advice.when:
            yield Conditional("advice", advice, "when", advice.when)


def sides(base: RuleBase) -> Iterator[Side]:
    """Yield all that rules say: rules conclude, evidence speaks, and `otherwise` speaks the opposite."""
    for rule in base.rules.values():
        yield Side("rule", rule, "when", rule.gives, "gives", rule.when)
    for evidence in base.evidence.values():
        yield Side("evidence", evidence, "when", evidence.cause, evidence.speaks, evidence.when)
        if evidence.otherwise:
            try:
                other = negated(evidence.when)
            except NegatedFindingError:  # told by the engine's limits
                continue
            yield Side("evidence", evidence, "otherwise", evidence.cause, opposite(evidence.speaks), other)


def opposite(speaks: str) -> str:
    """Return the other side."""
    return "against" if speaks == "for" else "for"


def problem(  # noqa: PLR0917 - the parts of one sentence, in its order
    base: RuleBase, check: str, place: tuple[str, AnyEntry, Path], found: str, expected: str, mend: str = ""
) -> Problem:
    """Return a problem at (table, entry, path in the entry); its line is found later."""
    table, entry, path = place
    here = base.standing[table, entry.id]
    key = f"{table} {entry.id}" + (f", {path[0]}" if path else "")
    return Problem(here.file, None, key, found, expected, mend, check, (here.table, here.index, *path))


def place(base: RuleBase, table: str, entry: AnyEntry) -> str:
    """Return an entry and its file as they are named in a sentence."""
    file = base.standing[table, entry.id].file.replace("\\", "/").rsplit("/", 1)[-1]
    return _("{id} in {file}").format(id=entry.id, file=file)
