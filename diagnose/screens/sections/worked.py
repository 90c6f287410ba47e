"""What all pages share whose content takes a while: a worker, a word meanwhile, and the content when it is done."""

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING, Any, cast

from textual.app import ComposeResult
from textual.message import Message
from textual.widgets import OptionList
from textual.worker import get_current_worker

from diagnose.language import _, marked
from diagnose.problems import BadInputError, Problem
from diagnose.questionnaire import Questionnaire
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.entries import Entry, EntryList, remark
from diagnose.screens.sections.section import ChooseCause, GoTo, Section

if TYPE_CHECKING:
    from diagnose.screens.app import DiagnoseApp
    from diagnose.screens.review import ReviewScreen

WORKING = marked("Working it out …")


class WorkedSection(Section):
    """A page whose `work` runs in a thread and touches no widget; `draw` shows what it yielded."""

    class Worked(Message):
        """The content, or the first part of it, is ready."""

        def __init__(self, key: tuple[Reasoner, str], result: Any, *, first: bool) -> None:
            super().__init__()
            self.key, self.result, self.first = key, result, first

    class Failed(Message):
        """The content could not be worked out."""

        def __init__(self, problems: tuple[Problem, ...]) -> None:
            super().__init__()
            self.problems = problems

    def __init__(self) -> None:
        super().__init__()
        self.asked: Questionnaire | None = None
        self.cause = ""
        self._key: tuple[Reasoner, str] | None = None
        self.result: Any = None
        """What was worked out, None while nothing is."""

    def work(self, reasoner: Reasoner, cause: str) -> Iterator[Any]:
        """Yield the content, as far as it is known and then more of it; runs in a thread."""
        raise NotImplementedError

    def draw(self, *, keep: bool = True) -> None:
        """Show `result`, or that it is being worked out; `keep` stays where one stood."""
        raise NotImplementedError

    @property
    def case_in_hand(self) -> Questionnaire:
        """The case that is shown."""
        if self.asked is None:
            raise ValueError("no case is shown yet")
        return self.asked

    @property
    def desk(self) -> "DiagnoseApp":
        """The application."""
        return cast("DiagnoseApp", self.app)

    @property
    def reasoner(self) -> Reasoner:
        """What reasons are asked of."""
        return cast("ReviewScreen", self.screen).reasoner

    def show(self, asked: Questionnaire, cause: str) -> None:
        """Show a cause; work only if it, or the diagnosis, is another than before."""
        key = (self.reasoner, cause if self.ABOUT_CAUSE else "")
        if key == self._key:
            self.draw()
            return
        fresh = self._key is None or self._key[0] is not key[0]
        self.asked, self.cause, self._key = asked, cause, key
        if fresh:
            self.result = None
            self.draw(keep=False)
        self.begin()

    @property
    def group(self) -> str:
        """The page's workers: one at a time."""
        return f"page {self.id}"

    def begin(self) -> None:
        """Work the content out (again)."""
        if self._key is not None:
            self.run_worker(partial(self._run, self._key), thread=True, exclusive=True, group=self.group)

    def _run(self, key: tuple[Reasoner, str]) -> None:
        worker = get_current_worker()
        try:
            for place, result in enumerate(self.work(key[0], self.cause)):
                if worker.is_cancelled:
                    return
                self.post_message(self.Worked(key, result, first=place == 0))
        except BadInputError as error:
            self.post_message(self.Failed(error.problems))

    def on_worked_section_worked(self, message: Worked) -> None:
        """Show what was worked out, unless another cause or case is shown by now."""
        message.stop()
        if message.key == self._key:
            self.result = message.result
            self.draw(keep=not message.first)

    def on_worked_section_failed(self, message: Failed) -> None:
        """Say why."""
        message.stop()
        self.desk.tell(message.problems, rest=False)

    def on_resize(self) -> None:
        """Use the width there is."""
        if self._key is not None:
            self.draw()


class RowsSection(WorkedSection):
    """A page of rows, made by `entries`; Enter goes where a row leads."""

    DEFAULT_CSS = "RowsSection EntryList { height: 1fr; }"

    def compose(self) -> ComposeResult:
        """Lay the page out."""
        yield EntryList()

    def entries(self, result: Any, width: int) -> list[Entry]:
        """Return the rows."""
        raise NotImplementedError

    def draw(self, *, keep: bool = True) -> None:
        """Draw the rows."""
        rows = self.query_one(EntryList)
        if not rows.size.width:  # drawn as soon as it is known
            return
        done = self.result is not None
        rows.put(self.entries(self.result, rows.room) if done else [remark(_(WORKING), rows.room)], keep=keep)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Go where the row leads."""
        event.stop()
        entry = self.query_one(EntryList).entries[event.option_index]
        if entry.question:
            self.post_message(GoTo(entry.question))
        elif entry.cause:
            self.post_message(ChooseCause(entry.cause))
        elif entry.leads_on:
            self.suppose(entry)

    def suppose(self, entry: Entry) -> None:
        """Suppose other answers; only one page has such rows."""
        raise NotImplementedError
