"""The plan: what to do and when, what is not done yet and why, when to look again, schedules and cautions."""

from collections.abc import Iterable, Iterator

from textual.content import Content

from diagnose.language import _, day_in_short, day_said
from diagnose.plan import Held, LookAgain, Plan, Row, Schedule, Step
from diagnose.report.plan_text import BETTER, LIMITS, look_again, parted, purpose, why_held
from diagnose.report.words import assumed_said, with_house
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.entries import Entry, gap, heading, hung, remark, stacked
from diagnose.screens.sections.worked import RowsSection

_DATE = 13


class PlanSection(RowsSection):
    """Enter on a step that waits for an answer goes to its question."""

    ABOUT_CAUSE = False

    def work(self, reasoner: Reasoner, cause: str) -> Iterator[Plan]:
        """Make the plan; light through the year takes a moment."""
        del cause
        yield reasoner.plan()

    def entries(self, result: Plan, width: int) -> list[Entry]:
        """Return the steps by day, then the rest."""
        rows = [heading(purpose(result), width, first=True)]
        if result.only_looks:
            rows.append(remark(result.only_looks, width, "$against"))
        for title, steps in parted(result):
            rows += [heading(title, width), *(_step(step, width) for step in steps)]
        rows += _part(_("Not yet"), (_held(held, width) for held in result.held), width)
        rows += self._unasked(result, width)
        rows += _part(_("When to look again"), (_look(look, width) for look in result.looks), width)
        for schedule in result.schedules:
            rows += _part(schedule.title, self._schedule(schedule, width), width)
        cautions = (hung("  ", caution.text, width, "$against") for caution in result.cautions)
        rows += _part(_("Take care"), cautions, width)
        return [*rows, gap(), remark(_(LIMITS), width)]

    def _unasked(self, plan: Plan, width: int) -> Iterable[Entry]:
        questions = self.case_in_hand.diagnosis.base.questions
        if plan.unasked:
            yield heading(_("Steps that wait for an answer"), width)
        for one in plan.unasked:
            missing = [questions[name] for name in one.questions if name in questions]
            if missing:
                text = stacked(hung("  ", one.text, width), hung("    ", missing[0].text, width, "$muted"))
                yield Entry(text, question=missing[0].id)

    def _schedule(self, schedule: Schedule, width: int) -> Iterable[Content]:
        for row in schedule.rows:
            yield hung(_when(row), row.text, width)
        if schedule.note:
            yield hung("  ", schedule.note, width, "$muted")
        for assumed in schedule.assumed:
            yield hung("  ", assumed_said(self.case_in_hand.diagnosis.base, assumed), width, "$muted")


def _part(title: str, rows: Iterable[Content], width: int) -> list[Entry]:
    shown = [Entry(row) for row in rows]
    return [heading(title, width), *shown] if shown else []


def _step(step: Step, width: int) -> Entry:
    text = with_house(step.text, house=step.house)
    parts = [hung("  ", text, width), hung("    ", step.how, width, "$muted")]
    if step.look_again:
        parts.append(hung("    ", look_again(step), width, "$muted"))
    return Entry(stacked(*parts))


def _held(held: Held, width: int) -> Content:
    text = with_house(held.text, house=held.house)
    parts = [hung("  ", text, width), hung("    ", why_held(held), width, "$muted")]
    if held.until:
        parts.append(hung("    ", _("First: {text}").format(text=held.until), width, "$muted"))
    return stacked(*parts)


def _look(look: LookAgain, width: int) -> Content:
    told = (
        hung("    ", f"{text} {expect or _(BETTER)}", width, "$muted", indent=6)
        for _id, text, expect in look.steps
    )
    return stacked(Content(f"  {day_said(look.date)}"), *told)


def _when(row: Row) -> str:
    return f"  {day_in_short(row.date)} ".ljust(_DATE) if row.date else "  "
