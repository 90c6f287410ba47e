"""All questions by subject, each with its state; Enter goes to one."""

import textwrap
from itertools import zip_longest
from typing import ClassVar

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from diagnose.language import _, pgettext
from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.outline import Item
from diagnose.questionnaire.said import answer_said
from diagnose.questionnaire.units import System
from diagnose.report.words import with_house
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
        counts = _("{done} done, {open} open, {skipped} skipped")
        yield from self.heading(_("All questions"), counts.format(done=done, open=still, skipped=skipped))
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

        ask = LineScreen(_("Name of this case"), _("such as Juniper, winter loss"), self._asked.case.title)
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
        width = max(options.size.width or self.size.width, 40) - 5  # its padding, a row's, and the scroll bar
        for item in self._asked.items:
            if item.question.subject != subject:
                subject = item.question.subject
                name = self._asked.diagnosis.base.subjects[subject].name
                options.add_option(Option(Content.styled(f"\n{name}", "bold"), disabled=True))
            options.add_option(Option(self._row(item, width), id=item.question.id))

    def _row(self, item: Item, width: int) -> Content:
        """Return a question and its state side by side, each on as many lines as it needs."""
        house = self._asked.diagnosis.base.is_house("question", item.question.id)
        room = (width - 4) * 3 // 5
        questions = textwrap.wrap(with_house(item.question.text, house=house), room)
        states = textwrap.wrap(self._state(item), width - 4 - room)
        return Content("\n").join(
            Content.assemble(
                (f"{'' if line else _MARKS[item.state]:<2}", "$accent"),
                (f"{question:<{room}}", "$muted" if item.state == "skipped" else "$foreground"),
                "  ",
                (state, "$foreground" if item.state == "answered" else "$muted"),
            )
            for line, (question, state) in enumerate(zip_longest(questions, states, fillvalue=""))
        )

    def _state(self, item: Item) -> str:
        asked = self._asked
        if item.state == "answered":
            return answer_said(asked.case, asked.diagnosis.base, item.question, self._system)
        if item.state == "skipped":
            return _("skipped: {reason}").format(reason=item.question.skip_because)
        return _("not known") if item.state == "not known" else pgettext("a question without answer", "open")
