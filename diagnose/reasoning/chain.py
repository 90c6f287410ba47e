"""Why: from a ledger's line back, through findings and measures, to the answers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from diagnose.engine import Firing
from diagnose.facts import Fact
from diagnose.ranking import Line, fill
from diagnose.rulebase.resolve import listed
from diagnose.rulebase.rulebase import RuleBase


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
            text = f"{base.findings[finding].text}: {fill(rule.because, facts)}"
            steps.append(Step(text, "finding", rule.id, listed(rule.origin), below))
    steps += [_fact_step(base, facts, name) for name in fact_names]
    return tuple(steps)


def _fact_step(base: RuleBase, facts: Mapping[str, Fact], name: str) -> Step:
    fact = facts[name]
    term = base.vocabulary[name]
    if fact.measure is None:
        words = {
            "answer": "you answered",
            "event": "from the dated events",
            "journal": "from the journal",
            "plant": "from the plant's profile",
        }
        return Step(f"{term.meaning} {fact.said} ({words[fact.source]})", fact.source, name)
    measure = fact.measure
    below = [_fact_step(base, facts, used) if used in facts else _record_step(used) for used in measure.used]
    below += [
        Step(f"assumed: {a.name.replace('_', ' ')} {a.value}; {a.effect}", "assumed", a.name)
        for a in measure.assumed
    ]
    remark = f" ({measure.remark})" if measure.remark else ""
    return Step(f"{term.meaning} {fact.said}{remark}", "measure", name, below=tuple(below))


def _record_step(name: str) -> Step:
    return Step(f"from the case's {name.replace('_', ' ')}", "answer", name)
