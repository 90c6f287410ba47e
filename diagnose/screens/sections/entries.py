"""Rows of a page that is worked out: text in the width there is, and what Enter does on it."""

import textwrap
from collections.abc import Mapping
from dataclasses import dataclass

from textual.content import Content
from textual.widgets.option_list import Option

from diagnose.case import AnswerValue
from diagnose.screens.rows import Rows


@dataclass(frozen=True, slots=True)
class Entry:
    """One row; Enter does the one thing that is given here, if there is one."""

    text: Content
    question: str | None = None
    """Go to this question."""
    cause: str | None = None
    """Show this cause."""
    other: str | None = None
    """Ask for another answer to this question, only to suppose it."""
    changes: Mapping[str, AnswerValue | None] | None = None
    """Suppose these answers and no others."""
    apart: bool = False
    """A heading or a remark: passed over by the arrows."""

    @property
    def target(self) -> object:
        """Where Enter leads, or the text of a row that leads nowhere."""
        return (self.question, self.cause, self.other, self.changes) if self.leads_on else self.text.plain

    @property
    def leads_on(self) -> bool:
        """Whether Enter does anything here."""
        return bool(self.question or self.cause or self.other or self.changes is not None)


class EntryList(Rows):
    """Shows entries, standing at the same row when they are drawn anew."""

    DEFAULT_CSS = """
    EntryList > .option-list--option-highlighted { text-style: none; }
    EntryList:focus > .option-list--option-highlighted { text-style: none; }
    """

    def __init__(self, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self.entries: list[Entry] = []
        self._began: int | None = None

    @property
    def room(self) -> int:
        """The cells a row may use."""
        return max(self.size.width - 3, 36)

    def put(self, entries: list[Entry], *, keep: bool) -> None:
        """Show entries; `keep` stays at the row one stood at."""
        moved = self.highlighted is not None and self.highlighted != self._began
        before = self.entries[self.highlighted or 0] if keep and moved else None
        self.entries = entries
        self.clear_options()
        self.add_options([Option(entry.text, disabled=entry.apart) for entry in entries])
        rows = [n for n, entry in enumerate(entries) if not entry.apart]
        here = None if before is None else next((n for n in rows if entries[n].target == before.target), None)
        first = next((n for n in rows if entries[n].leads_on), rows[0] if rows else None)
        self._began = first
        self.highlighted = first if here is None else here
        if here is None:
            self.scroll_home(animate=False)


def heading(text: str, width: int, *, first: bool = False) -> Entry:
    """Return a heading with a line of space above it."""
    said = "\n".join(textwrap.wrap(text, width) or [""])
    return Entry(Content.styled(said if first else f"\n{said}", "$foreground bold"), apart=True)


def remark(text: str, width: int, style: str = "$muted") -> Entry:
    """Return a paragraph that the arrows pass over."""
    return Entry(hung("", text, width, style), apart=True)


def gap() -> Entry:
    """Return an empty line."""
    return Entry(Content(""), apart=True)


def hung(start: str, text: str, width: int, style: str = "", *, indent: int | None = None) -> Content:
    """Return text behind `start`, further lines under the text (or `indent` cells in)."""
    under = " " * (len(start) if indent is None else indent)
    lines = textwrap.wrap(_joined(text), max(width - max(len(start), len(under)), 16)) or [""]
    rows = (f"{under if n else start}{line}" for n, line in enumerate(lines))
    return Content.styled("\n".join(rows).replace(_UNBROKEN, " "), style)


_UNBROKEN = "\u00a0"


def _joined(text: str) -> str:
    """Keep numbers and their units on one line."""
    for unit in ("%", "dB", "mol/m²/d"):
        text = text.replace(f" {unit}", f"{_UNBROKEN}{unit}")
    return text


def stacked(*parts: Content) -> Content:
    """Return parts one under the other."""
    return Content("\n").join(parts)


def columns(left: str, right: str, width: int) -> str:
    """Return `left` cut to fit with `right` at the end of the line."""
    room = width - len(right) - 2
    return f"{left if len(left) <= room else left[: room - 1] + '…':<{room}}  {right}"
