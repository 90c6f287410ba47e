"""Pages of what is reasoned with: questions, measures, findings, rules, evidence and causes."""

from diagnose.language import _, marked, numeral
from diagnose.measures.measure import Declaration
from diagnose.report.rulebook.conditions import (
    condition_run,
    example_run,
    finding_link,
    origin_runs,
)
from diagnose.report.rulebook.page import Link, Part, Run, filled, joined, listing, said
from diagnose.report.rulebook.terms import strength_said, word_said
from diagnose.report.rulebook.uses import Uses
from diagnose.report.words import event_said, lower_first
from diagnose.rulebase.groups import group_said
from diagnose.rulebase.model import Cause, Conflict, Evidence, Finding, Question, Rule
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.vocabulary import plain_number

_KINDS = {
    "choice": marked("one of these answers"),
    "several": marked("all of these answers that apply"),
    "yes_no": marked("yes or no"),
    "number": marked("a number"),
    "date": marked("a date; rules see the days before the case's date"),
    "leaf_history": marked("dated leaf counts"),
    "place": marked("a place"),
    "plant_profile": marked("the kind of plant"),
}
_USERS = ("rule", "evidence", "conflict", "advice", "question", "measure")


def question_parts(base: RuleBase, uses: Uses, entry: Question) -> list[Part]:
    """Return a question's page."""
    answer = _(_KINDS[entry.kind])
    if entry.least is not None and entry.most is not None:
        text = _("{answer} from {least} to {most} {unit}")
        least, most = plain_number(entry.least), plain_number(entry.most)
        answer = text.format(answer=answer, least=least, most=most, unit=entry.unit).rstrip()
    choices = [
        (f"{choice.id}: {choice.label}" + (f". {choice.help}" if choice.help else ""),)
        for choice in entry.choices
    ]
    asked: Run = ()
    if entry.ask_when:
        text = _("unless it is known that not: {condition}")
        asked = filled(text, condition=condition_run(base, entry.ask_when))
    return [
        *said("", entry.text),
        *said(_("How to look"), entry.help),
        *said(_("Why it is asked"), entry.why),
        *said(_("Answer"), answer),
        *listing(_("Answers"), choices),
        *said(_("Effort"), word_said(entry.effort)),
        *said(_("Subject"), *_subject(base, entry)),
        *said(_("Asked"), *asked),
        *said(_("If it is skipped"), entry.skip_because),
        *said(
            _("Also answered by"),
            _("the latest event of kind {event}").format(event=event_said(entry.event))
            if entry.event
            else "",
        ),
        *listing(_("Take care"), cautions(base, entry.caution)),
        *listing(_("Used by"), uses.of("question", entry.id, *_USERS)),
    ]


def measure_parts(base: RuleBase, uses: Uses, entry: Declaration) -> list[Part]:
    """Return a measure's page."""
    inputs = [(Link("question", name, name) if name in base.questions else name,) for name in entry.inputs]
    number = _("a number in {unit}").format(unit=entry.unit) if entry.unit else _("a number")
    values = ", ".join(entry.words) or number
    return [
        *said("", _(entry.meaning)),
        *said(_("Value"), values),
        *said(_("Computed from"), *joined(inputs, ", ")),
        *said(_("Origin"), entry.source),
        *listing(_("Used by"), uses.of("measure", entry.name, *_USERS)),
    ]


def finding_parts(base: RuleBase, uses: Uses, entry: Finding) -> list[Part]:
    """Return a finding's page."""
    concluded = [
        filled(
            _("{entry}: if {condition}"),
            entry=Link("rule", rule.id, rule.id),
            condition=condition_run(base, rule.when),
        )
        for rule in base.rules.values()
        if rule.gives == entry.id
    ]
    return [
        *said("", entry.text),
        *listing(_("Concluded by"), concluded),
        *listing(
            _("Used by"),
            uses.of("finding", entry.id, "rule", "evidence", "advice", "question")[len(concluded) :],
        ),
    ]


def rule_parts(base: RuleBase, uses: Uses, entry: Rule) -> list[Part]:
    """Return a rule's page."""
    return [
        *said(_("If"), *condition_run(base, entry.when)),
        *said(_("then it concludes"), finding_link(base, entry.gives)),
        *said(_("Said as"), entry.because),
        *_worked(base, uses, entry),
    ]


def evidence_parts(base: RuleBase, uses: Uses, entry: Evidence) -> list[Part]:
    """Return an evidence rule's page."""
    cause = Link("cause", entry.cause, base.causes[entry.cause].name)
    speaks = _("for {cause}, {strength}") if entry.speaks == "for" else _("against {cause}, {strength}")
    otherwise = ""
    if entry.otherwise:
        text = (
            _("against it, {strength}: {because}")
            if entry.speaks == "for"
            else _("for it, {strength}: {because}")
        )
        otherwise = text.format(strength=strength_said(entry.otherwise), because=entry.otherwise_because)
    group = ""
    if entry.group:
        text = _("{group} (the strongest line counts in full, the others half)")
        group = text.format(group=group_said(entry.group))
    return [
        *said(_("If"), *condition_run(base, entry.when)),
        *said(_("then it speaks"), *filled(speaks, cause=cause, strength=strength_said(entry.strength))),
        *said(_("Said as"), entry.because),
        *said(_("If that is known not to be so"), otherwise),
        *said(_("Group"), group),
        *said(_("How the strength was set"), entry.strength_from),
        *_worked(base, uses, entry),
    ]


def conflict_parts(base: RuleBase, uses: Uses, entry: Conflict) -> list[Part]:
    """Return the page of a conflict among answers."""
    return [
        *said(_("If"), *condition_run(base, entry.when)),
        *said(_("then it is shown"), entry.because),
        *_worked(base, uses, entry),
    ]


def cause_parts(base: RuleBase, uses: Uses, entry: Cause) -> list[Part]:
    """Return a cause's page."""
    evidence = [one for one in base.evidence.values() if one.cause == entry.id]
    prior = _("{weight} dB: how likely it is before anything is known of the plant")
    prior = prior.format(weight=numeral(entry.prior_db, "+g"))
    steps = [
        (Link("advice", name, name), f": {base.advice[name].text}")
        for name in entry.advice
        if name in base.advice
    ]
    return [
        *said("", entry.what),
        *said(_("How it looks"), entry.looks),
        *said(_("What settles it"), entry.settles),
        *said(_("Prior"), prior),
        *listing(_("Origin"), origin_runs(base, entry.origin)),
        *listing(_("Speaks for it"), (_evidence_run(base, one) for one in evidence if one.speaks == "for")),
        *listing(
            _("Speaks against it"), (_evidence_run(base, one) for one in evidence if one.speaks == "against")
        ),
        *listing(_("What to do"), steps),
        *listing(_("Holds back"), uses.of("cause", entry.id, "advice")),
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


def _evidence_run(base: RuleBase, one: Evidence) -> Run:
    return filled(
        _("{strength}, {entry}: if {condition}"),
        strength=strength_said(one.strength),
        entry=Link("evidence", one.id, one.id),
        condition=condition_run(base, one.when),
    )


def _worked(base: RuleBase, uses: Uses, entry: Rule | Evidence | Conflict) -> list[Part]:
    needs = [
        (Link("question", name, name), f": {lower_first(base.questions[name].text)}")
        for name in uses.questions_behind(entry.when)
    ]
    return [
        *listing(_("Origin"), origin_runs(base, entry.origin)),
        *said(_("Disputed"), entry.disputed),
        *listing(_("Rests on the questions"), needs),
        *listing(_("Fires on"), (example_run(base, facts) for facts in entry.fires)),
        *listing(_("Stays silent on"), (example_run(base, facts) for facts in entry.silent)),
    ]
