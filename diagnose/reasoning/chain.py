"""Why: from a ledger's line back, through findings and measures, to the answers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from diagnose.engine import Firing
from diagnose.facts import Fact
from diagnose.language import _, marked
from diagnose.measures.measure import Assumption
from diagnose.ranking import Line, fill
from diagnose.reasoning.options import said
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.rulebase import RuleBase

_TOLD = {
    "answer": marked("{what} {value} (you answered)"),
    "event": marked("{what} {value} (from the dated events)"),
    "journal": marked("{what} {value} (from the journal)"),
    "plant": marked("{what} {value} (from the plant's profile)"),
}
_RECORDS = {
    "date": marked("from the case's date"),
    "place": marked("from the case's place"),
    "plant": marked("from the case's plant"),
    "events": marked("from the case's events"),
    "leaf_history": marked("from the case's leaf history"),
    "leaves": marked("from the case's leaves"),
}


@dataclass(frozen=True, slots=True)
class Step:
    """One link of a chain: what is concluded or known, said in words, and the steps it rests on."""

    text: str
    kind: str
    """finding, answer, event, journal, measure, assumed or plant"""
    id: str
    origin: tuple[str, ...] = ()
    below: tuple["Step", ...] = field(default=())


def chain(
    base: RuleBase, facts: Mapping[str, Fact], firings: Sequence[Firing], line: Line
) -> tuple[Step, ...]:
    """Return what a ledger's line rests on, down to the answers."""
    given_by: dict[str, list[Firing]] = {}
    for firing in firings:
        if firing.rule in base.rules:
            given_by.setdefault(base.rules[firing.rule].gives, []).append(firing)
    return _below(base, facts, given_by, line.facts, line.findings)


def _below(
    base: RuleBase,
    facts: Mapping[str, Fact],
    given_by: Mapping[str, list[Firing]],
    fact_names: Sequence[str],
    findings: Sequence[str],
    *,
    above: tuple[str, ...] = (),
) -> tuple[Step, ...]:
    steps = []
    for finding in findings:
        for firing in given_by.get(finding, []):
            if firing.rule in above:  # a loop of rules adds nothing to the reasons
                continue
            rule = base.rules[firing.rule]
            below = _below(base, facts, given_by, firing.facts, firing.findings, above=(*above, firing.rule))
            text = _("{finding}: {reason}").format(
                finding=base.findings[finding].text, reason=fill(rule.because, facts)
            )
            steps.append(Step(text, "finding", rule.id, listed(rule.origin), below))
    steps += [_fact_step(base, facts, name) for name in fact_names]
    return tuple(steps)


def _fact_step(base: RuleBase, facts: Mapping[str, Fact], name: str) -> Step:
    fact = facts[name]
    term = base.vocabulary[name]
    if fact.measure is None:
        text = _(_TOLD[fact.source]).format(what=term.meaning, value=_told(base, fact))
        return Step(text, fact.source, name)
    measure = fact.measure
    below = [_fact_step(base, facts, used) if used in facts else _record_step(used) for used in measure.used]
    below += [_assumed_step(base, assumed) for assumed in measure.assumed]
    text = _("{what} {value} ({remark})") if measure.remark else _("{what} {value}")
    text = text.format(what=term.meaning, value=fact.said, remark=measure.remark)
    return Step(text, "measure", name, below=tuple(below))


def _told(base: RuleBase, fact: Fact) -> str:
    """Return what was told as it is said: a date as so many days ago, since that is what rules look at."""
    question = base.questions.get(fact.name)
    if question is not None and question.kind == "date" and isinstance(fact.value, int | float):
        return said(question, fact.value)
    return fact.said


def _assumed_step(base: RuleBase, assumed: Assumption) -> Step:
    question = base.questions.get(assumed.name)
    text = _("assumed: {name} {value}; {effect}").format(
        name=question.text if question else assumed.name, value=assumed.value, effect=assumed.effect
    )
    return Step(text, "assumed", assumed.name)


def _record_step(name: str) -> Step:
    text = _(_RECORDS[name]) if name in _RECORDS else _("from the case's {name}").format(name=name)
    return Step(text, "answer", name)
