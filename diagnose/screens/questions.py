"""Answering: one question at a time, with the ranking beside it."""

import gc
from collections.abc import Mapping
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.message import Message
from textual.worker import get_current_worker

from diagnose import locations
from diagnose.case import Case
from diagnose.diagnosis import Diagnosis, Diagnostician
from diagnose.language import _
from diagnose.measures.leaves.consistency import inconsistencies
from diagnose.problems import BadInputError, Problem
from diagnose.questionnaire.bookmarks import write_bookmark
from diagnose.questionnaire.order import next_open
from diagnose.report.words import called, verdict
from diagnose.screens.inputs import Draft, Given, Kept, NotKnown
from diagnose.screens.opening import Opened
from diagnose.screens.page import Page
from diagnose.screens.question_pane import QuestionPane
from diagnose.screens.ranking_panel import RankingPanel
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.subjects_panel import SubjectsPanel

_PAUSE_S = 1.0
"""Without a key for so long, it is worked out whether to go on; sooner it would hold up who types on (from trying)."""


class QuestionsScreen(Page[None]):
    """A case being answered. Diagnosing happens in a worker; the newest answer's diagnosis is the one that shows."""

    PLACE = "questions"
    CSS = """
    QuestionsScreen #middle { height: 1fr; }
    QuestionsScreen #subjects { width: 38; height: 1fr; padding: 1 2; border-right: solid $line; display: none; }
    QuestionsScreen QuestionPane { width: 1fr; padding: 1 2 0 2; }
    QuestionsScreen #ranking { width: 52; padding: 1 2; border-left: solid $line; }
    QuestionsScreen.-widest #subjects { display: block; }
    QuestionsScreen.-widest #ranking { width: 65; }
    QuestionsScreen.-widest QuestionPane { padding: 1 3; }
    QuestionsScreen.-narrow #middle { layout: vertical; }
    QuestionsScreen.-narrow QuestionPane { width: 100%; height: 1fr; padding: 0 2; }
    QuestionsScreen.-narrow #ranking {
        width: 100%; height: 5; padding: 0 2; border-left: none; border-top: solid $line; overflow-y: hidden;
    }
    QuestionsScreen.-short PlantField OptionList { max-height: 5; }
    QuestionsScreen.-short LeavesField Counts { max-height: 5; }
    QuestionsScreen.-narrow.-tall #ranking { height: 10; }
    """
    AUTO_FOCUS: ClassVar[str] = ""

    class Weighed(Message):
        """A case was diagnosed."""

        def __init__(self, case: Case, diagnosis: Diagnosis) -> None:
            super().__init__()
            self.case, self.diagnosis = case, diagnosis

    class Ordered(Message):
        """It was worked out which questions tell most."""

        def __init__(self, telling: tuple[str, ...], *, enough: bool) -> None:
            super().__init__()
            self.telling, self.enough = telling, enough

    class Failed(Message):
        """A case could not be diagnosed."""

        def __init__(self, problems: tuple[Problem, ...]) -> None:
            super().__init__()
            self.problems = problems

    def __init__(self, opened: Opened, *, reasons_first: bool = False) -> None:
        super().__init__()
        self.opened = opened
        self.reasons_first = reasons_first
        self._to_first = False
        self._asked_about: Mapping[str, Draft] = {}
        self.questionnaire = opened.questionnaire

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading("")
        with Horizontal(id="middle"):
            yield SubjectsPanel(id="subjects")
            yield QuestionPane()
            yield RankingPanel(id="ranking")
        yield self.foot()

    def on_mount(self) -> None:
        """Show the question in hand, or the reasons if they were asked for or all is answered."""
        if not gc.get_freeze_count():
            gc.freeze()  # rules and modules stay for good; looking through them for rubbish holds up every tenth key
        self._show()
        if self.reasons_first or self.questionnaire.current is None:
            self.action_review()
        problems = (*self.opened.problems, *self.questionnaire.diagnosis.gathered.problems)
        self.desk.tell(problems, self.opened.remark)

    def on_unmount(self) -> None:
        """Let go what was opened for the case."""
        self.opened.close()

    def on_questions_screen_failed(self, message: Failed) -> None:
        """Say why."""
        self.desk.tell(message.problems, rest=False)

    def on_given(self, message: Given) -> None:
        """Take an answer; it is on disk before the next question shows."""
        asked = self.questionnaire
        if not self._is_in_hand(message.question):
            return
        if message.record:
            asked.record(message.value)  # type: ignore[arg-type]  # the field gives the kind its question asks for
        else:
            asked.answer(message.value)  # type: ignore[arg-type]
        self._show()

    def on_question_pane_shown(self) -> None:
        """Weigh what was answered before."""
        if self.questionnaire.is_behind:
            self._start_weighing()

    def on_kept(self, message: Kept) -> None:
        """Keep a part of an answer; the question stays as it is on the screen."""
        if self._is_in_hand(message.question):
            self.questionnaire.keep(message.value)
            for problem in inconsistencies(self.questionnaire.case):
                self.notify(problem.sentence(), severity="warning", markup=False)
            self._head()
            self._weigh()

    def on_not_known(self, message: NotKnown) -> None:
        """Go on without an answer."""
        if self._is_in_hand(message.question):
            self.action_not_known()

    def on_questions_screen_weighed(self, message: Weighed) -> None:
        """Show the new ranking, unless answers have come since."""
        asked = self.questionnaire
        before = asked.current
        if not asked.settle(message.case, message.diagnosis):
            return
        self._rank()
        self._order()
        self.call_after_refresh(gc.collect)  # now, while the question is read, rather than under the next key
        self.desk.weighed.publish(None)
        if asked.current != before:
            self._show()

    def on_screen_resume(self) -> None:
        """Take rules that were read again meanwhile, and weigh what was changed elsewhere."""
        asked, loaded = self.questionnaire, self.desk.loader.loaded
        if loaded and loaded is not asked.diagnostician:
            asked.use(loaded)
        if asked.is_behind:
            self._weigh()
        elif (self.desk.settings.order == "telling") != bool(asked.telling):
            self._to_first = bool(asked.current and not asked.is_done(asked.current))
            self._order()

    def on_questions_screen_ordered(self, message: Ordered) -> None:
        """Follow the new order from the next question on; at once if the order was just chosen."""
        asked = self.questionnaire
        asked.telling, asked.enough = message.telling, message.enough
        if self._to_first:
            self._to_first = False
            first = next_open(asked.items, None, asked.telling)
            self.go_to(first)
        self.query_one(QuestionPane).tell_enough(asked.enough)

    def on_screen_suspend(self) -> None:
        """Remember the question."""
        self._remember()

    def action_not_known(self) -> None:
        """Say that the answer is not known."""
        if self.questionnaire.current:
            self.query_one(QuestionPane).entered()
            self.questionnaire.do_not_know()
            self._show()

    def action_before(self) -> None:
        """Go to the question before."""
        self._step(-1)

    def action_after(self) -> None:
        """Go to the question after."""
        self._step(1)

    def action_undo(self) -> None:
        """Take the last answer back."""
        if self.questionnaire.undo():
            self._show()
        else:
            self.notify(_("There is nothing to take back."), markup=False)

    def action_about(self) -> None:
        """Show how to look, why it is asked and what each answer would tell."""
        from diagnose.screens.about_question import AboutQuestion  # noqa: PLC0415

        if self.questionnaire.current:
            self.app.push_screen(AboutQuestion(self.questionnaire, self.questionnaire.current))

    def action_all_questions(self) -> None:
        """Show all questions."""
        from diagnose.screens.question_list import QuestionList  # noqa: PLC0415

        self.app.push_screen(QuestionList(self.questionnaire, self.desk.settings.units), self.go_to)

    def action_review(self) -> None:
        """Show the ranking with its reasons."""
        from diagnose.screens.review import ReviewScreen  # noqa: PLC0415

        self.app.push_screen(ReviewScreen(self.questionnaire), self._from_review)

    def action_back(self) -> None:
        """Leave the case; it is on disk."""
        if not self._asks_about_drafts("Esc"):
            self.leave()

    async def action_quit(self) -> None:
        """Leave the application."""
        if not self._asks_about_drafts("F10"):
            await super().action_quit()

    def leave(self) -> None:
        """Leave the case, whatever is typed and not entered."""
        self._remember()
        self.dismiss()

    def go_to(self, question: str | None) -> None:
        """Go to a question; None stays."""
        if question:
            self.reasons_first = self._to_first = False
            self.questionnaire.jump(question)
        self._show()

    def _from_review(self, question: str | None) -> None:
        if question is None and self.reasons_first:
            self.dismiss()
        else:
            self.go_to(question)

    def _asks_about_drafts(self, key: str) -> bool:
        """Ask about what was typed but not entered, at its question, unless it was asked about already."""
        drafts = self.query_one(QuestionPane).drafts
        if not drafts or drafts == self._asked_about:
            return False
        self._asked_about = drafts
        current = self.questionnaire.current
        if current is None or current.id not in drafts:
            self.go_to(next(iter(drafts)))
        asks = _("What you typed here is not entered yet. Enter takes it; {key} again leaves without it.")
        self.notify(asks.format(key=key), severity="warning", markup=False)
        return True

    def _is_in_hand(self, question: str) -> bool:
        """Whether a field's question is still the one being asked: a quick second key may come too late."""
        current = self.questionnaire.current
        return current is not None and current.id == question

    def _step(self, by: int) -> None:
        self.questionnaire.step(by)
        self._show()

    def _weigh(self) -> None:
        self._rank()
        self.call_after_refresh(self._start_weighing)

    def _start_weighing(self) -> None:
        asked = self.questionnaire
        work = partial(self._diagnose, asked.diagnostician, asked.case)
        self.run_worker(work, thread=True, exclusive=True, group="weigh")

    def _order(self) -> None:
        """Find out whether more answers would matter and, if the grower wants that order, which tell most."""
        asked = self.questionnaire
        asked.enough = False
        if self.desk.settings.order == "telling":
            self._start_ordering(asked.diagnosis, by_telling=True)
        else:
            asked.telling, self._to_first = (), False
            self.set_timer(_PAUSE_S, partial(self._start_ordering, asked.diagnosis, by_telling=False))

    def _start_ordering(self, diagnosis: Diagnosis, *, by_telling: bool) -> None:
        """Look at a diagnosis, unless it is no longer the newest."""
        asked = self.questionnaire
        if asked.diagnosis is diagnosis and not asked.is_behind:
            work = partial(self._find_order, Reasoner(asked.diagnostician, diagnosis), by_telling=by_telling)
            self.run_worker(work, thread=True, exclusive=True, group="order")

    def _find_order(self, reasoner: Reasoner, *, by_telling: bool) -> None:
        worker = get_current_worker()
        try:
            order = reasoner.telling_order() if by_telling else ()
            ordered = self.Ordered(order, enough=reasoner.next_checks().enough)
        except BadInputError as error:
            self.post_message(self.Failed(error.problems))
            return
        if not worker.is_cancelled:
            self.post_message(ordered)

    def _diagnose(self, diagnostician: Diagnostician, case: Case) -> None:
        worker = get_current_worker()
        if worker.is_cancelled:
            return
        try:
            diagnosis = diagnostician.diagnose(case)
        except BadInputError as error:
            self.post_message(self.Failed(error.problems))
            return
        if not worker.is_cancelled:
            self.post_message(self.Weighed(case, diagnosis))

    def _show(self) -> None:
        """Show the question in hand, and where it stands; answers are weighed once it stands there.

        A worker that starts before would take time from the screen.
        """
        asked = self.questionnaire
        self._head()
        self.query_one(QuestionPane).show(asked, self.desk.settings.units, verdict(asked.diagnosis))
        self._rank()
        self._remember()

    def _head(self) -> None:
        asked = self.questionnaire
        progress = asked.progress()
        done, total = (sum(one.done for one in progress), sum(one.total for one in progress))
        name = called(asked.case, asked.diagnosis.base, _("New case"))
        self.retitle(name, _("{done} of {total} done, F7 shows all").format(done=done, total=total))
        self.query_one(SubjectsPanel).show(progress, asked.current)

    def _rank(self) -> None:
        asked = self.questionnaire
        self.query_one(RankingPanel).show(asked.diagnosis, behind=asked.is_behind)

    def _remember(self) -> None:
        asked = self.questionnaire
        if asked.path.exists():
            write_bookmark(
                locations.bookmarks(), self.opened.mark, asked.current.id if asked.current else None
            )
