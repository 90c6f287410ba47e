"""Pages of what is reasoned with: questions, measures, findings, rules, evidence and causes."""

from diagnose.measures.measure import Declaration
from diagnose.report.rulebook.conditions import (
    condition_run,
    example_run,
    finding_link,
    origin_runs,
)
from diagnose.report.rulebook.page import Link, Part, Piece, Run, joined, listing, said
from diagnose.report.rulebook.uses import Uses
from diagnose.report.words import lower_first
from diagnose.rulebase.model import Cause, Conflict, Evidence, Finding, Question, Rule, Strength
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.strengths import DECIBANS
from diagnose.rulebase.vocabulary import plain_number

_KINDS = {
    "choice": "one of these answers",
    "several": "all of these answers that apply",
    "yes_no": "yes or no",
    "number": "a number",
    "date": "a date; rules see the days before the case's date",
    "leaf_history": "dated leaf counts",
    "place": "a place",
    "plant_profile": "the kind of plant",
}
_USERS = ("rule", "evidence", "conflict", "advice", "question", "measure")


def question_parts(base: RuleBase, uses: Uses, entry: Question) -> list[Part]:
    """Return a question's page."""
    bounds = ""
    if entry.least is not None and entry.most is not None:
        bounds = f" from {plain_number(entry.least)} to {plain_number(entry.most)} {entry.unit}".rstrip()
    choices = [
        (f"{choice.id}: {choice.label}" + (f". {choice.help}" if choice.help else ""),)
        for choice in entry.choices
    ]
    asked: Run = (
        ("unless it is known that not: ", *condition_run(base, entry.ask_when)) if entry.ask_when else ()
    )
    return [
        *said("", entry.text),
        *said("How to look", entry.help),
        *said("Why it is asked", entry.why),
        *said("Answer", _KINDS[entry.kind] + bounds),
        *listing("Answers", choices),
        *said("Effort", entry.effort),
        *said("Subject", *_subject(base, entry)),
        *said("Asked", *asked),
        *said("If it is skipped", entry.skip_because),
        *said("Also answered by", f"the latest event of kind {entry.event}" if entry.event else ""),
        *listing("Take care", cautions(base, entry.caution)),
        *listing("Used by", uses.of("question", entry.id, *_USERS)),
    ]


def measure_parts(base: RuleBase, uses: Uses, entry: Declaration) -> list[Part]:
    """Return a measure's page."""
    inputs = [(Link("question", name, name) if name in base.questions else name,) for name in entry.inputs]
    values = ", ".join(entry.words) or f"a number {f'in {entry.unit}' if entry.unit else ''}".rstrip()
    return [
        *said("", entry.meaning),
        *said("Value", values),
        *said("Computed from", *joined(inputs, ", ")),
        *said("Origin", entry.source),
        *listing("Used by", uses.of("measure", entry.name, *_USERS)),
    ]


def finding_parts(base: RuleBase, uses: Uses, entry: Finding) -> list[Part]:
    """Return a finding's page."""
    concluded = [
        (Link("rule", rule.id, rule.id), ": if ", *condition_run(base, rule.when))
        for rule in base.rules.values()
        if rule.gives == entry.id
    ]
    return [
        *said("", entry.text),
        *listing("Concluded by", concluded),
        *listing(
            "Used by",
            uses.of("finding", entry.id, "rule", "evidence", "advice", "question")[len(concluded) :],
        ),
    ]


def rule_parts(base: RuleBase, uses: Uses, entry: Rule) -> list[Part]:
    """Return a rule's page."""
    return [
        *said("If", *condition_run(base, entry.when)),
        *said("then it concludes", finding_link(base, entry.gives)),
        *said("Said as", entry.because),
        *_worked(base, uses, entry),
    ]


def evidence_parts(base: RuleBase, uses: Uses, entry: Evidence) -> list[Part]:
    """Return an evidence rule's page."""
    cause = Link("cause", entry.cause, base.causes[entry.cause].name)
    other = "against" if entry.speaks == "for" else "for"
    otherwise: list[Piece] = []
    if entry.otherwise:
        otherwise = [f"{other} it, {_strength(entry.otherwise)}: {entry.otherwise_because}"]
    group = (
        f"{entry.group.replace('_', ' ')} (the strongest line counts in full, the others half)"
        if entry.group
        else ""
    )
    return [
        *said("If", *condition_run(base, entry.when)),
        *said("then it speaks", f"{entry.speaks} ", cause, f", {_strength(entry.strength)}"),
        *said("Said as", entry.because),
        *said("If that is known not to be so", *otherwise),
        *said("Group", group),
        *said("How the strength was set", entry.strength_from),
        *_worked(base, uses, entry),
    ]


def conflict_parts(base: RuleBase, uses: Uses, entry: Conflict) -> list[Part]:
    """Return the page of a conflict among answers."""
    return [
        *said("If", *condition_run(base, entry.when)),
        *said("then it is shown", entry.because),
        *_worked(base, uses, entry),
    ]


def cause_parts(base: RuleBase, uses: Uses, entry: Cause) -> list[Part]:
    """Return a cause's page."""
    evidence = [one for one in base.evidence.values() if one.cause == entry.id]
    steps = [
        (Link("advice", name, name), f": {base.advice[name].text}")
        for name in entry.advice
        if name in base.advice
    ]
    return [
        *said("", entry.what),
        *said("How it looks", entry.looks),
        *said("What settles it", entry.settles),
        *said("Prior", f"{entry.prior_db:+g} dB: how likely it is before anything is known of the plant"),
        *listing("Origin", origin_runs(base, entry.origin)),
        *listing("Speaks for it", (_evidence_run(base, one) for one in evidence if one.speaks == "for")),
        *listing(
            "Speaks against it", (_evidence_run(base, one) for one in evidence if one.speaks == "against")
        ),
        *listing("What to do", steps),
        *listing("Holds back", uses.of("cause", entry.id, "advice")),
    ]


def cautions(base: RuleBase, names: tuple[str, ...]) -> list[Run]:
    """Return the warnings that an entry names."""
    return [
        (Link("caution", name, name), f": {base.cautions[name].text}")
        for name in names
        if name in base.cautions
    ]


def _subject(base: RuleBase, entry: Question) -> Run:
    return (Link("subject", entry.subject, base.subjects[entry.subject].name),)


def _strength(strength: Strength) -> str:
    return f"{strength.replace('_', ' ')} ({DECIBANS[strength]:g} dB)"


def _evidence_run(base: RuleBase, one: Evidence) -> Run:
    return (
        f"{_strength(one.strength)}, ",
        Link("evidence", one.id, one.id),
        ": if ",
        *condition_run(base, one.when),
    )


def _worked(base: RuleBase, uses: Uses, entry: Rule | Evidence | Conflict) -> list[Part]:
    needs = [
        (Link("question", name, name), f": {lower_first(base.questions[name].text)}")
        for name in uses.questions_behind(entry.when)
    ]
    return [
        *listing("Origin", origin_runs(base, entry.origin)),
        *said("Disputed", entry.disputed),
        *listing("Rests on the questions", needs),
        *listing("Fires on", (example_run(base, facts) for facts in entry.fires)),
        *listing("Stays silent on", (example_run(base, facts) for facts in entry.silent)),
    ]
