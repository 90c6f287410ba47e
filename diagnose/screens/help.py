"""What the keys do, from the registry of actions; the place one came from first."""

import textwrap
from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Label, Static

from diagnose.language import _, marked
from diagnose.screens.actions import PLACES, by_place, keys_said
from diagnose.screens.key_line import KeyLine

KEYS = 18
"""Cells for the names of keys."""
_ALWAYS = (
    (marked("Arrows, Enter"), marked("Move in a list and choose.")),
    (marked("Tab"), marked("Move between the parts of a screen.")),
    (marked("1 to 9, A to J, 0"), marked("Choose an answer at once; 0 is always “don't know”.")),
    (marked("Mouse"), marked("Everything that can be chosen can be clicked, the line of keys too.")),
)


class HelpScreen(Screen[None]):
    """All keys on one page."""

    CSS = """
    HelpScreen .heading-left { padding: 0 2; border-bottom: solid $line; width: 100%; height: 2; }
    HelpScreen VerticalScroll { padding: 1 2 0 2; }
    HelpScreen HelpPart { margin-bottom: 1; }
    """
    BINDINGS: ClassVar = [
        Binding("escape,f1,enter", "dismiss", marked("Back")),
        Binding(
            "f10", "app.leave", marked("Quit"), priority=True
        ),  # as the application's own, else that one is meant
    ]

    def __init__(self, place: str) -> None:
        super().__init__()
        self._place = place

    def compose(self) -> ComposeResult:
        """Lay the page out."""
        yield Label(_("What the keys do"), markup=False, classes="heading-left")
        places = by_place()
        order = [self._place, *(place for place in places if place != self._place)]
        with VerticalScroll():
            for place in order:
                title = _(PLACES[place])
                if place == self._place:
                    title = _("{place} (where you are)").format(place=title)
                yield HelpPart(title, [(keys_said(one), _(one.what)) for one in places[place]])
            yield HelpPart(_("Answers and lists"), [(_(keys), _(what)) for keys, what in _ALWAYS])
        yield KeyLine()


class HelpPart(Static):
    """The keys of one place."""

    def __init__(self, title: str, rows: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self._title, self._rows = title, rows

    def on_resize(self) -> None:
        """Use the width there is."""
        room = max(min(self.size.width, 96) - KEYS - 2, 20)
        lines = [Content.styled(self._title, "bold")]
        for keys, what in self._rows:
            wrapped = f"\n{'':{KEYS + 2}}".join(textwrap.wrap(what, room))
            lines.append(Content.assemble((f"  {keys:<{KEYS}}", "$accent"), wrapped))
        self.update(Content("\n").join(lines))
