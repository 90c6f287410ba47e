"""What if: other answers supposed freely, the fewest that would change the first place, and each answer if wrong."""

import threading
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from textual.content import Content
from textual.message import Message
from textual.worker import get_current_worker

from diagnose.case import AnswerValue, Case
from diagnose.language import _, ngettext
from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.said import answer_said
from diagnose.reasoning.change import WhatIfAnswer, WhatWouldChange
from diagnose.reasoning.mistaken import Mistaken
from diagnose.report.words import lower_first, percent
from diagnose.rulebase.model import Question
from diagnose.rulebase.strengths import probability
from diagnose.screens.inputs import Asked
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.apart import Apart, StoppedError
from diagnose.screens.sections.entries import Entry, columns, gap, heading, hung, remark, stacked
from diagnose.screens.sections.what_if_said import sets_said, tried_said
from diagnose.screens.sections.worked import RowsSection

TELL_EVERY_S = 0.5
"""How often the page tells how far its work is (common practice, no source)."""
MOST_CAUSES = 5
"""Causes shown before and after; those that come first then."""


@dataclass(frozen=True, slots=True)
class IfOther:
    """What other answers would do, as far as it is known; the sets that change the first place come last."""

    supposed: WhatIfAnswer | None
    mistaken: tuple[Mistaken, ...] | None = None
    changing: WhatWouldChange | None = None
    tried: int = 0
    """How many suppositions were made so far."""


class WhatIfSection(RowsSection):
    """Enter on an answer supposes another one, on a set supposes it, on something supposed takes it back."""

    ABOUT_CAUSE = False

    class Tried(Message):
        """So many suppositions were made."""

        def __init__(self, tried: int) -> None:
            super().__init__()
            self.tried = tried

    def __init__(self) -> None:
        super().__init__()
        self._supposed: dict[str, AnswerValue | None] = {}
        self._apart: Apart | None = None
        self._left = False

    def show(self, asked: Questionnaire, cause: str) -> None:
        """Show the case; work that was let go of is taken up."""
        super().show(asked, cause)
        self.come_back()

    def leave(self) -> None:
        """Stop searching: it takes long, and what was tried is kept."""
        self._left = True
        self.workers.cancel_group(self, self.group)

    def come_back(self) -> None:
        """Go on with the search."""
        if self._left and (self.result is None or self.result.changing is None):
            self.begin()
        self._left = False

    def begin(self) -> None:
        """Work the content out (again), for another diagnosis from the start."""
        diagnosis = self.reasoner.diagnosis
        if self._apart is None or self._apart.diagnosis is not diagnosis:
            self.on_unmount()
            self._apart = Apart(diagnosis)
        super().begin()

    def on_unmount(self) -> None:
        """Give the engines back, in a thread of its own: the search may still be at its last supposition."""
        if self._apart is not None:
            threading.Thread(target=self._apart.close).start()

    def work(self, reasoner: Reasoner, cause: str) -> Iterator[IfOther]:
        """Try what is supposed, then each answer, then sets of answers."""
        del cause
        known = reasoner.diagnosis.gathered.case.answers.keys()
        supposed = {
            name: answer for name, answer in self._supposed.items() if name in known or answer is not None
        }
        if self._apart is None or self._apart.diagnosis is not reasoner.diagnosis:
            return
        try:
            with self._apart as apart:
                apart.listen(self._telling())
                told = IfOther(apart.what_if(supposed) if supposed else None)
                yield told
                told = replace(told, mistaken=apart.mistaken())
                yield told
                yield replace(told, changing=apart.what_would_change())
        except StoppedError:
            return

    def _telling(self) -> Callable[[int], None]:
        """Return what tells the page now and then how far its worker is, and stops it if it was cancelled."""
        worker, told = get_current_worker(), time.monotonic()

        def tell(tried: int) -> None:
            nonlocal told
            if worker.is_cancelled:
                raise StoppedError
            if time.monotonic() - told >= TELL_EVERY_S:
                told = time.monotonic()
                self.post_message(self.Tried(tried))

        return tell

    def on_what_if_section_tried(self, message: Tried) -> None:
        """Show how far the work is."""
        message.stop()
        if self.result is not None and self.result.changing is None:
            self.result = replace(self.result, tried=message.tried)
            self.draw()

    def entries(self, result: IfOther, width: int) -> list[Entry]:
        """Return what is supposed, the sets, and the answers."""
        return [
            *(self._before_and_after(result.supposed, width) if result.supposed else ()),
            *self._in_short(result, width),
            *self._sets(result, width),
            *self._answers(result, width),
        ]

    def suppose(self, entry: Entry) -> None:
        """Suppose a set or take a supposition back; or ask for another answer."""
        if entry.other:
            self._ask(self.case_in_hand.diagnosis.base.questions[entry.other])
        else:
            self._supposed = dict(entry.changes or {})
            self.begin()

    def _ask(self, question: Question) -> None:
        from diagnose.screens.suppose import Supposed, SupposeScreen  # noqa: PLC0415 - only when it is wanted

        def take(chosen: Supposed | None) -> None:
            if chosen is not None:
                self._supposed = self._supposed | {question.id: chosen.answer}
                self.begin()

        asked = self.case_in_hand
        asking = Asked(
            question, self._case_if(self._supposed), asked.diagnosis.base, self.desk.settings.units
        )
        self.app.push_screen(SupposeScreen(asking), take)

    def _before_and_after(self, result: WhatIfAnswer, width: int) -> Iterable[Entry]:
        base = self.case_in_hand.diagnosis.base
        yield heading(_("Supposed; your case stays as it is"), width, first=True)
        yield remark(_("Enter on a row takes it back."), width)
        for changed in result.changes:
            rest = {key: value for key, value in self._supposed.items() if key != changed.question.id}
            yield Entry(self._change(changed.question, changed.instead, width), changes=rest)
        before = {cause: place for place, cause in enumerate(result.before.order, start=1)}
        yield Entry(
            Content.styled("\n" + _ranks("", _("before"), _("then"), "", width), "$muted"), apart=True
        )
        for place, cause in enumerate(result.after.order[:MOST_CAUSES], start=1):
            rose = before[cause] - place
            moved = _("up {count}") if rose > 0 else _("down {count}") if rose < 0 else ""
            moved = moved.format(count=abs(rose))
            old, new = (percent(probability(one.scores[cause])) for one in (result.before, result.after))
            row = _ranks(f"{place:>2}  {base.causes[cause].name}", old, new, moved, width)
            yield Entry(Content.styled(row, "$foreground bold" if place == 1 else "$foreground"), apart=True)

    def _in_short(self, result: IfOther, width: int) -> Iterable[Entry]:
        yield heading(_("What if an answer is wrong"), width, first=result.supposed is None)
        if result.mistaken is None:
            yield remark(tried_said(_("Trying another answer to each question …"), result.tried), width)
            return
        ranking = self.case_in_hand.diagnosis.ranking
        first, count = lower_first(ranking.first.name), len(result.mistaken)
        fatal = sum(one.first != ranking.first.id for one in result.mistaken)
        text = ngettext(
            "Even if your one answer is wrong, {cause} still comes first.",
            "Whichever one of your {count} answers is wrong, {cause} still comes first.",
            count,
        )
        if fatal:
            text = ngettext(
                "{fatal} of your {count} answers would put another cause first if wrong, taken alone; "
                "whichever of the others is wrong, {cause} still comes first.",
                "{fatal} of your {count} answers would put another cause first if wrong, taken alone; "
                "whichever of the others is wrong, {cause} still comes first.",
                fatal,
            )
        yield remark(text.format(fatal=fatal, count=count, cause=first), width, "$foreground")

    def _sets(self, result: IfOther, width: int) -> Iterable[Entry]:
        if result.mistaken is None:
            return
        yield heading(_("What would change the first place"), width)
        if result.changing is None:
            yield remark(tried_said(_("Looking for the fewest answers that would …"), result.tried), width)
            return
        yield remark(sets_said(result.changing), width)
        base = self.case_in_hand.diagnosis.base
        for found in result.changing.found:
            said = [self._change(one.question, one.instead, width) for one in found.changes]
            then = _("then {cause} comes first").format(
                cause=lower_first(base.causes[found.after.first].name)
            )
            changes = {one.question.id: one.instead for one in found.changes}
            yield Entry(stacked(*said, hung("  ", then, width)), changes=changes)
            yield gap()

    def _answers(self, result: IfOther, width: int) -> Iterable[Entry]:
        if result.mistaken is None:
            return
        base = self.case_in_hand.diagnosis.base
        by_question = {one.question.id: one for one in result.mistaken}
        yield heading(_("Your answers, one by one"), width)
        yield remark(_("Enter supposes another answer."), width)
        subject = ""
        for question in base.asked():
            if question.id not in by_question:
                continue
            if question.subject != subject:
                subject = question.subject
                yield Entry(Content.styled(base.subjects[subject].name, "$muted"), apart=True)
            yield self._answer(by_question[question.id], width)

    def _answer(self, one: Mistaken, width: int) -> Entry:
        asked = self.case_in_hand
        ranking, base = asked.diagnosis.ranking, asked.diagnosis.base
        told = hung("  ", f"{one.question.text} {self._said(one.question, asked.case)}", width, indent=4)
        if one.first != ranking.first.id:
            if_so = self._said(one.question, self._case_if({one.question.id: one.instead}))
            then = _("if {answer}: {cause} first").format(
                answer=if_so, cause=lower_first(base.causes[one.first].name)
            )
            told = stacked(told, hung("    ", then, width, "$against"))
        return Entry(told, other=one.question.id)

    def _change(self, question: Question, instead: AnswerValue | None, width: int) -> Content:
        now = self._said(question, self.case_in_hand.case)
        then = self._said(question, self._case_if({question.id: instead}))
        instead_said = _("not “{now}” but “{then}”").format(now=now, then=then)
        return stacked(hung("  ", question.text, width), hung("    ", instead_said, width, "$muted"))

    def _said(self, question: Question, case: Case) -> str:
        said = answer_said(case, self.case_in_hand.diagnosis.base, question, self.desk.settings.units)
        return said or _("not known")

    def _case_if(self, changes: Mapping[str, AnswerValue | None]) -> Case:
        """Return the case with other answers, in order to say them; it is shown and never kept."""
        case = self.case_in_hand.case
        answers = {**case.answers, **changes}
        known = {name: value for name, value in answers.items() if value is not None}
        return case.model_copy(update={"answers": known})


def _ranks(name: str, before: str, after: str, moved: str, width: int) -> str:
    return columns(f"  {name}", f"{before:>7}{after:>8}  {moved:<7}", width)
