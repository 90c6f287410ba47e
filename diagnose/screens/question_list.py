"""All questions by subject, each with its state; Enter goes to one."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.outline import Item
from diagnose.questionnaire.said import answer_said
from diagnose.questionnaire.units import System
from diagnose.screens.page import Page
from diagnose.screens.rows import Rows

_MARKS = {"answered": "•", "not known": "?", "open": " ", "skipped": "-"}


class QuestionList(Page[str | None]):
    """Gives the id of the question to go to, or None."""

    PLACE = "list"
    CSS = """
    QuestionList OptionList { height: 1fr; padding: 0 1; }
    """
    AUTO_FOCUS: ClassVar[str] = "#all"

    def __init__(self, asked: Questionnaire, system: System) -> None:
        super().__init__()
        self._asked, self._system = asked, system

    def compose(self) -> ComposeResult:
        """Lay the list out."""
        done = sum(item.state in ("answered", "not known") for item in self._asked.items)
        skipped = sum(item.state == "skipped" for item in self._asked.items)
        still = len(self._asked.items) - done - skipped
        yield from self.heading("All questions", f"{done} done, {still} open, {skipped} skipped")
        yield Rows(id="all")
        yield self.foot()

    def on_mount(self) -> None:
        """Fill the list, standing at the question in hand."""
        self._fill()
        current = self._asked.current
        options = self.query_one(OptionList)
        options.highlighted = options.get_option_index(current.id) if current else 1
        self.call_after_refresh(options.scroll_to_highlight, top=True)

    def on_resize(self) -> None:
        """Use the width there is."""
        options = self.query_one(OptionList)
        here = options.highlighted
        self._fill()
        options.highlighted = here

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Go to a question."""
        self.dismiss(event.option_id)

    def action_subject(self, by: int) -> None:
        """Go to the first question of the next subject, or of the one before."""
        options = self.query_one(OptionList)
        firsts = [n + 1 for n in range(options.option_count) if options.get_option_at_index(n).disabled]
        here = options.highlighted or 0
        beyond = [n for n in firsts if (n > here if by > 0 else n < here)]
        if beyond:
            options.highlighted = beyond[0] if by > 0 else beyond[-1]
            options.scroll_to_highlight(top=True)

    def action_next_order(self) -> None:
        """Change the order in which questions come; this list stays by subject."""
        self.desk.next_order()

    def action_name_case(self) -> None:
        """Give the case a name."""
        from diagnose.screens.line import LineScreen  # noqa: PLC0415

        ask = LineScreen("Name of this case", "such as Juniper, winter loss", self._asked.case.title)
        self.app.push_screen(ask, self._rename)

    def action_back(self) -> None:
        """Go back to the question in hand."""
        self.dismiss(None)

    def _rename(self, title: str | None) -> None:
        if title is not None:
            self._asked.rename(title)

    def _fill(self) -> None:
        options = self.query_one(OptionList)
        options.clear_options()
        subject = None
        width = max((options.size.width or self.size.width) - 4, 40)
        for item in self._asked.items:
            if item.question.subject != subject:
                subject = item.question.subject
                name = self._asked.diagnosis.base.subjects[subject].name
                options.add_option(Option(Content.styled(f"\n{name}", "bold"), disabled=True))
            options.add_option(Option(self._row(item, width), id=item.question.id))

    def _row(self, item: Item, width: int) -> Content:
        asked = self._asked
        state: str = item.state
        if item.state == "skipped":
            state = f"skipped: {item.question.skip_because}"
        elif item.state == "answered":
            state = answer_said(asked.case, asked.diagnosis.base, item.question, self._system)
        room = width // 2
        question = (
            item.question.text if len(item.question.text) <= room else item.question.text[: room - 1] + "…"
        )
        said = state if len(state) <= width - room - 6 else state[: width - room - 7] + "…"
        return Content.assemble(
            (f"{_MARKS[item.state]} ", "$accent"),
            (f"{question:<{room}}", "$muted" if item.state == "skipped" else "$foreground"),
            "  ",
            (said, "$foreground" if item.state == "answered" else "$muted"),
        )
