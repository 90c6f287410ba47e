"""A list whose rows are chosen by digit, letter, arrows and Enter, or mouse."""

from collections.abc import Sequence

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widgets.option_list import Option

from diagnose.language import _
from diagnose.screens.rows import Rows

LETTERS = "abcdefghij"
NOT_KNOWN = "not-known"


class NumberedList(Rows):
    """Rows marked 1 to 9, then J and on (the tenth letter), and a last one, 0, for "don't know"."""

    DEFAULT_CSS = "NumberedList { height: auto; max-height: 100%; }"

    class Missed(Message):
        """A key chose no row; `said` tells what would."""

        def __init__(self, said: str) -> None:
            super().__init__()
            self.said = said

    def __init__(self, rows: Sequence[Content], highlighted: int | None = None) -> None:
        numbered = [Option(_row(_mark(place), row), id=str(place)) for place, row in enumerate(rows)]
        super().__init__(*numbered, Option(_row("0", Content(_("don't know"))), id=NOT_KNOWN))
        self._start = highlighted

    def on_mount(self) -> None:
        """Stand at the earlier answer; without one no row is marked, so that Enter takes nothing unchosen."""
        self.highlighted = self._start

    def set_row(self, place: int, row: Content) -> None:
        """Change what a row says."""
        self.replace_option_prompt_at_index(place, _row(_mark(place), row))

    def on_key(self, event: events.Key) -> None:
        """Choose a row by its digit or letter."""
        if len(event.key) != 1 or not event.key.isalnum():
            return
        event.stop()
        event.prevent_default()
        place = _place(event.key.lower(), self.option_count - 1)
        if place is None:
            said = _("{key} is no choice here: press {marks}.")
            self.post_message(self.Missed(said.format(key=event.key.upper(), marks=self._marks())))
        else:
            # the row is not highlighted first: that would cost a repaint before the next question's
            self.post_message(self.OptionSelected(self, self.get_option_at_index(place), place))

    def action_select(self) -> None:
        """Choose the marked row, if one is marked."""
        if self.highlighted is None:
            said = _("No row is marked yet: press {marks}, or move with the arrows first.")
            self.post_message(self.Missed(said.format(marks=self._marks())))
        else:
            super().action_select()

    def _marks(self) -> str:
        """Return the keys that choose a row."""
        rows = self.option_count - 1
        return _("1 to {last} or 0").format(last=rows) if rows <= 9 else _("1 to 9, J or 0")


def _place(key: str, choices: int) -> int | None:
    if key == "0":
        return choices
    if key.isdecimal() and len(key) == 1:
        place = int(key) - 1
    elif len(key) == 1 and key in LETTERS:
        place = LETTERS.index(key)
    else:
        return None
    return place if place < choices else None


def _mark(place: int) -> str:
    """Return the one key that chooses a row: a second digit would already answer the next question."""
    return str(place + 1) if place < 9 else LETTERS[place].upper()


def _row(number: str, row: Content) -> Content:
    return Content.assemble((f"{number:>2}  ", "$accent"), row)
