"""The leaf history: a small table, a line to add a count, and a bar for every count."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Input, Label, OptionList, Static
from textual.widgets.option_list import Option

from diagnose.case import LeafCount
from diagnose.language import _, date_short, marked
from diagnose.questionnaire import TypedError
from diagnose.questionnaire.said import leaves_said
from diagnose.questionnaire.table import read_leaf_row
from diagnose.screens.inputs.field import AnswerField, Draft, Kept
from diagnose.screens.rows import Rows

_COLUMNS = (
    ("date", marked("when"), 18),
    ("present", marked("leaves"), 10),
    ("new", marked("opened"), 10),
    ("lost", marked("lost"), 10),
    ("which", marked("which"), 12),
)
WHICH = {"oldest": marked("oldest"), "middle": marked("middle"), "newest": marked("newest")}
BAR = 14
"""Cells of the longest bar."""


class Counts(Rows):
    """The counts, earliest first; X removes one."""

    BINDINGS: ClassVar = [Binding("x", "remove", show=False)]  # the field's hint tells of it

    def action_remove(self) -> None:
        """Ask the field to remove the chosen count."""
        field = self.parent
        if isinstance(field, LeavesField) and self.highlighted is not None:
            field.remove_count(self.highlighted)


class LeavesField(AnswerField):
    """Enter adds what was typed; Enter on an empty line takes the table."""

    DEFAULT_CSS = """
    LeavesField Counts { height: auto; max-height: 8; }
    LeavesField Horizontal { height: 4; }
    LeavesField .column { width: auto; }
    LeavesField .column Label { color: $muted; padding: 0 1; }
    LeavesField #hint { padding: 0 1; color: $muted; }
    """

    def compose(self) -> ComposeResult:
        """Lay the table and the line out."""
        self._rows: list[LeafCount] = list(self.asked.case.leaf_history)
        yield Counts()
        with Horizontal():
            for name, said, width in _COLUMNS:
                yield _Column(name, _(said), width)
        yield self.echo()
        hint = _(
            "Enter adds the count; Enter on an empty line takes the table. In the table (Shift+Tab) Enter changes a "
            "count and X removes it. Only date and leaves are needed."
        )
        yield Static(hint, markup=False, id="hint")

    def on_mount(self) -> None:
        """Show the counts there are."""
        self._show()
        self.query_one("#date", Input).focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Add the count, or take the table if nothing was typed."""
        event.stop()
        typed = self.written()
        if not any(text.strip() for text in typed.values()):
            if self._rows:
                self.give(tuple(self._rows), record=True)
            else:
                self.do_not_know()
            return
        try:
            count = read_leaf_row(typed, self.asked.case.date, south=self.asked.south)
        except TypedError as error:
            self.say(str(error), wrong=True)
            return
        self._rows = sorted(
            [row for row in self._rows if row.date != count.date] + [count], key=lambda row: row.date
        )
        self._begin({})
        self._keep()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Put a count into the line, to be changed."""
        event.stop()
        row = self._rows[event.option_index]
        self._begin(
            {
                "date": row.date.isoformat(),
                "present": str(row.present),
                "new": "" if row.new is None else str(row.new),
                "lost": "" if row.lost is None else str(row.lost),
                "which": _(WHICH[row.lost_which]) if row.lost_which else "",
            }
        )

    def remove_count(self, place: int) -> None:
        """Remove a count."""
        del self._rows[place]
        self._keep()

    def _keep(self) -> None:
        self._show()
        self.post_message(Kept(self.asked.question.id, self._rows))

    def _begin(self, count: Draft) -> None:
        """Put a count into the line: nothing of it is typed yet."""
        self.write(count)
        self._begun = self.written()
        self.query_one("#date", Input).focus()

    def _show(self) -> None:
        counts = self.query_one(Counts)
        here = counts.highlighted or 0
        counts.clear_options()
        counts.add_options([Option(row) for row in leaf_bars(self._rows)])
        counts.highlighted = min(here, len(self._rows) - 1) if self._rows else None
        counts.display = bool(self._rows)
        self.say(leaves_said(tuple(self._rows)))


class _Column(Horizontal):
    """A field under its heading."""

    DEFAULT_CSS = "_Column { width: auto; height: 4; layout: vertical; }"

    def __init__(self, name: str, said: str, width: int) -> None:
        super().__init__()
        self._name_of, self._said, self._width = name, said, width

    def compose(self) -> ComposeResult:
        """Lay heading and field out."""
        yield Label(f" {self._said}", markup=False, classes="muted")
        field = Input(id=self._name_of, max_length=30)
        field.styles.width = self._width
        yield field


def leaf_bars(rows: Sequence[LeafCount]) -> list[Content]:
    """Return a line for every count: its date, its leaves as a bar and a number, and what opened and went."""
    most = max((row.present for row in rows), default=0) or 1
    dates = [date_short(row.date) for row in rows]
    width = max(map(len, dates), default=0)
    return [
        Content.assemble(
            f"{date:>{width}}  {row.present:>5}  ",
            (f"{'━' * max(round(BAR * row.present / most), 1 if row.present else 0):<{BAR}}", "$accent"),
            (f"  {_changes(row)}", "$muted"),
        )
        for date, row in zip(dates, rows, strict=True)
    ]


def _changes(row: LeafCount) -> str:
    """Return what opened and went since the count before."""
    opened = _("{count} opened").format(count=row.new) if row.new else ""
    if row.lost and row.lost_which:
        lost = _("{count} lost ({which})").format(count=row.lost, which=_(WHICH[row.lost_which]))
    else:
        lost = _("{count} lost").format(count=row.lost) if row.lost else ""
    return ", ".join(part for part in (opened, lost) if part)
