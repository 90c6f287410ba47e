"""Why the chosen cause has its rank: the ledger, each line down to the answers."""

from textual.app import ComposeResult
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from diagnose.language import _
from diagnose.questionnaire import Questionnaire
from diagnose.screens.rows import Rows
from diagnose.screens.sections.ledger import ANSWER, Row, ledger_rows, line_keys
from diagnose.screens.sections.section import GoTo, Section


class ReasonsSection(Section):
    """Enter opens or closes a line; on an answer it goes to the question."""

    DEFAULT_CSS = """
    ReasonsSection OptionList { height: 1fr; }
    ReasonsSection #hint { color: $muted; padding: 0 1; }
    """

    def compose(self) -> ComposeResult:
        """Lay the page out."""
        yield Rows(id="ledger")
        hint = _(
            "Enter opens a line, or goes to an answer ({mark}). Decibans: + for, - against. Several causes can hold "
            "at once: their figures do not add up to 100 %."
        )
        yield Static(hint.format(mark=ANSWER), markup=False, id="hint")

    def on_mount(self) -> None:
        """Begin with all lines closed."""
        self._asked: Questionnaire | None = None
        self._cause = ""
        self._opened: set[str] = set()
        self._rows: list[Row] = []

    def show(self, asked: Questionnaire, cause: str) -> None:
        """Show a cause's ledger."""
        if cause != self._cause:
            self._opened = set()
        self._asked, self._cause = asked, cause
        self._draw(keep=False)

    def on_resize(self) -> None:
        """Use the width there is."""
        if self._asked is not None:
            self._draw()

    def open_all(self) -> None:
        """Open every line, or close them all if all are open."""
        if self._asked is None:
            return
        every = line_keys(self._asked.diagnosis, self._cause)
        self._opened = set() if self._opened >= every else every
        self._draw()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Open or close a line, or go to the question behind an answer."""
        event.stop()
        row = self._rows[event.option_index]
        if row.question:
            self.post_message(GoTo(row.question))
        elif row.opens:
            self._opened ^= {row.key}
            self._draw()

    def _draw(self, *, keep: bool = True) -> None:
        options = self.query_one(OptionList)
        if self._asked is None or not options.size.width:  # drawn as soon as the width is known
            return
        here = self._rows[options.highlighted].key if keep and options.highlighted is not None else None
        width = max(options.size.width - 3, 40)
        self._rows = ledger_rows(self._asked.diagnosis, self._cause, self._opened, width)
        options.clear_options()
        options.add_options([Option(row.text) for row in self._rows])
        keys = [row.key for row in self._rows]
        options.highlighted = keys.index(here) if here in keys else 0
