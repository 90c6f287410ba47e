"""A list whose rows are chosen by digit, letter, arrows and Enter, or mouse."""

from collections.abc import Sequence

from textual import events
from textual.content import Content
from textual.widgets.option_list import Option

from diagnose.screens.rows import Rows

LETTERS = "abcdefghij"
NOT_KNOWN = "not-known"


class NumberedList(Rows):
    """Rows marked 1 to 9, then J and on (the tenth letter), and a last one, 0, for "don't know"."""

    DEFAULT_CSS = "NumberedList { height: auto; max-height: 100%; }"

    def __init__(self, rows: Sequence[Content], highlighted: int = 0) -> None:
        numbered = [Option(_row(_mark(place), row), id=str(place)) for place, row in enumerate(rows)]
        super().__init__(*numbered, Option(_row("0", Content("don't know")), id=NOT_KNOWN))
        self._start = highlighted

    def on_mount(self) -> None:
        """Stand at the earlier answer, if there is one."""
        self.highlighted = self._start

    def set_row(self, place: int, row: Content) -> None:
        """Change what a row says."""
        self.replace_option_prompt_at_index(place, _row(_mark(place), row))

    def on_key(self, event: events.Key) -> None:
        """Choose a row by its digit or letter."""
        place = _place(event.key, self.option_count - 1)
        if place is not None:
            event.stop()
            event.prevent_default()
            # the row is not highlighted first: that would cost a repaint before the next question's
            self.post_message(self.OptionSelected(self, self.get_option_at_index(place), place))


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
