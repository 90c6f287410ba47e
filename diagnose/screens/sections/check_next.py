"""What to check next: open questions, most telling for their effort first, with what each answer would do."""

from collections.abc import Iterator

from textual.content import Content

from diagnose.language import _, marked, ngettext, numeral
from diagnose.reasoning.next_checks import Check, Move, NextChecks, Outcome
from diagnose.report.words import lower_first, percent
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.entries import Entry, columns, gap, heading, hung, remark, stacked
from diagnose.screens.sections.worked import RowsSection

MOST_OUTCOMES = 4
"""Answers shown under a question; the likeliest ones."""
_EFFORT = {
    "think": marked("remember"),
    "look": marked("look"),
    "touch": marked("touch"),
    "unpot": marked("unpot"),
    "wait": marked("wait and watch"),
}
_TELLS = (
    # least bits -> how much that is (common practice, no source)
    (1.0, marked("a great deal")),
    (0.5, marked("much")),
    (0.2, marked("a fair amount")),
    (0.05, marked("a little")),
    (0.0, marked("very little")),
)


class CheckNextSection(RowsSection):
    """Enter goes to a question."""

    ABOUT_CAUSE = False

    def work(self, reasoner: Reasoner, cause: str) -> Iterator[NextChecks]:
        """Try every answer to every open question."""
        del cause
        yield reasoner.next_checks()

    def entries(self, result: NextChecks, width: int) -> list[Entry]:
        """Return the questions that matter with their answers, then the others in a line each."""
        matter = [check for check in result.checks if not check.hardly_matters]
        rest = [check for check in result.checks if check.hardly_matters]
        told = [heading(_("What to check next"), width, first=True), remark(_advice(result, matter), width)]
        for place, check in enumerate(matter, start=1):
            told += [gap(), self._check(place, check, width)]
        if result.unweighed:
            told.append(heading(_("Also open, though what it would do cannot be said"), width))
            told += [Entry(hung("   ", q.text, width), question=q.id) for q in result.unweighed]
        if rest:
            told.append(heading(_("These would hardly move the ranking"), width))
            told += [
                Entry(hung("   ", check.question.text, width), question=check.question.id) for check in rest
            ]
        asked = self.case_in_hand
        listed = {check.question.id for check in result.checks} | {q.id for q in result.unweighed}
        unknown = [q for q in asked.diagnosis.unanswered if q.id not in listed]
        if unknown:
            told.append(heading(_("You did not know, and nothing can be looked at"), width))
            told += [Entry(hung("   ", q.text, width), question=q.id) for q in unknown]
        return told

    def _check(self, place: int, check: Check, width: int) -> Entry:
        question = check.question
        head = hung(f"{place:>2} ", question.text, width)
        likeliest = sorted(check.outcomes, key=lambda one: -one.chance)
        lines = [hung("   ", _told(check), width, "$muted")]
        lines += [self._outcome(one, width) for one in likeliest[:MOST_OUTCOMES]]
        if more := len(likeliest) - MOST_OUTCOMES:
            more_said = _("and {count} more").format(count=more)
            lines += [hung("   ", more_said, width, "$muted")] if more > 0 else []
        return Entry(stacked(head, *lines), question=question.id)

    def _outcome(self, outcome: Outcome, width: int) -> Content:
        """Return an answer with how likely it is, and below it what it would do."""
        base = self.case_in_hand.diagnosis.base
        names = {cause.id: lower_first(cause.name) for cause in base.causes.values()}
        seen = [move for move in outcome.moves if percent(move.before) != percent(move.after)]
        does = "; ".join(_moved(names[move.cause], move) for move in seen[:2])
        turns = outcome.first != self.case_in_hand.diagnosis.ranking.first.id
        if turns:
            then = _("then {cause} comes first").format(cause=names[outcome.first])
            does = f"{does}; {then}" if does else then
        likely = _("{percent} likely").format(percent=percent(outcome.chance))
        text = _("if {answer}") if does else _("if {answer}: little changes")
        head = Content(columns(f"   {text.format(answer=outcome.said)}", likely, width))
        return (
            stacked(head, hung("      ", does, width, "$foreground" if turns else "$muted")) if does else head
        )


def _moved(name: str, move: Move) -> str:
    text = _("{cause} {before} to {after}")
    return text.format(cause=name, before=percent(move.before), after=percent(move.after))


def _advice(result: NextChecks, matter: list[Check]) -> str:
    if not result.checks and not result.unweighed:
        return _("Every question that applies was answered.")
    if result.enough:
        return _(
            "Nothing still open is expected to move the ranking: a good moment to stop and turn to the plan (7)."
        )
    return ngettext(
        "{count} question could still move the ranking. Enter goes to it. 1 bit is what settles an even question.",
        "{count} questions could still move the ranking, most telling for the effort first. Enter goes to one. "
        "1 bit is what settles an even question.",
        len(matter),
    ).format(count=len(matter))


def _told(check: Check) -> str:
    """Say what is to be done for a question and how much it is expected to tell."""
    effort = _(_EFFORT[check.question.effort])
    if check.said_not_known:
        effort = _("{effort} (you did not know)").format(effort=effort)
    tells = next(_(word) for least, word in _TELLS if check.bits >= least)
    said = {"effort": effort, "tells": tells, "bits": numeral(check.bits, ".2f")}
    if not check.changes_first:
        return _("To do: {effort}. Tells {tells} ({bits} bits).").format(**said)
    text = _("To do: {effort}. Tells {tells} ({bits} bits); {percent} chance of another first cause.")
    return text.format(percent=percent(check.changes_first), **said)
