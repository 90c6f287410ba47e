"""What to check next: open questions, most telling for their effort first, with what each answer would do."""

from collections.abc import Iterator

from textual.content import Content

from diagnose.reasoning.next_checks import Check, Move, NextChecks, Outcome
from diagnose.report.words import lower_first, percent
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.entries import Entry, columns, gap, heading, hung, remark, stacked
from diagnose.screens.sections.worked import RowsSection

MOST_OUTCOMES = 4
"""Answers shown under a question; the likeliest ones."""
_EFFORT = {"think": "remember", "look": "look", "touch": "touch", "unpot": "unpot", "wait": "wait and watch"}


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
        told = [heading("What to check next", width, first=True), remark(_advice(result, matter), width)]
        for place, check in enumerate(matter, start=1):
            told += [gap(), self._check(place, check, width)]
        if result.unweighed:
            told.append(heading("Also open, though what it would do cannot be said", width))
            told += [Entry(hung("   ", q.text, width), question=q.id) for q in result.unweighed]
        if rest:
            told.append(heading("These would hardly move the ranking", width))
            told += [
                Entry(hung("   ", check.question.text, width), question=check.question.id) for check in rest
            ]
        asked = self.case_in_hand
        listed = {check.question.id for check in result.checks} | {q.id for q in result.unweighed}
        unknown = [q for q in asked.diagnosis.unanswered if q.id not in listed]
        if unknown:
            told.append(heading("You did not know, and nothing can be looked at", width))
            told += [Entry(hung("   ", q.text, width), question=q.id) for q in unknown]
        return told

    def _check(self, place: int, check: Check, width: int) -> Entry:
        question = check.question
        head = hung(f"{place:>2} ", question.text, width)
        effort = _EFFORT[question.effort] + (" (you did not know)" if check.said_not_known else "")
        turns = (
            f", {percent(check.changes_first)} chance of another first cause" if check.changes_first else ""
        )
        likeliest = sorted(check.outcomes, key=lambda one: -one.chance)
        lines = [hung("   ", f"To do: {effort}. Tells {check.bits:.2f} bits{turns}.", width, "$muted")]
        lines += [self._outcome(one, width) for one in likeliest[:MOST_OUTCOMES]]
        if more := len(likeliest) - MOST_OUTCOMES:
            lines += [hung("   ", f"and {more} more", width, "$muted")] if more > 0 else []
        return Entry(stacked(head, *lines), question=question.id)

    def _outcome(self, outcome: Outcome, width: int) -> Content:
        """Return an answer with how likely it is, and below it what it would do."""
        base = self.case_in_hand.diagnosis.base
        names = {cause.id: lower_first(cause.name) for cause in base.causes.values()}
        seen = [move for move in outcome.moves if percent(move.before) != percent(move.after)]
        does = "; ".join(_moved(names[move.cause], move) for move in seen[:2])
        turns = outcome.first != self.case_in_hand.diagnosis.ranking.first.id
        if turns:
            does += f"; then {names[outcome.first]} comes first"
        likely = f"{percent(outcome.chance)} likely"
        head = Content(columns(f"   if {outcome.said}{'' if does else ': little changes'}", likely, width))
        return (
            stacked(head, hung("      ", does, width, "$foreground" if turns else "$muted")) if does else head
        )


def _moved(name: str, move: Move) -> str:
    return f"{name} {percent(move.before)} to {percent(move.after)}"


def _advice(result: NextChecks, matter: list[Check]) -> str:
    if not result.checks and not result.unweighed:
        return "Every question that applies was answered."
    if result.enough:
        return "Nothing still open is expected to move the ranking: a good moment to stop and turn to the plan (7)."
    what = "1 question" if len(matter) == 1 else f"{len(matter)} questions"
    return (
        f"{what} could still move the ranking, most telling for the effort first. Enter goes to one. "
        "1 bit is what settles an even question."
    )
