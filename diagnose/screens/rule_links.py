"""Go on from an entry of the rules to one that it names, by keyboard."""

from collections.abc import Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Label, OptionList
from textual.widgets.option_list import Option

from diagnose.language import _, marked
from diagnose.report.rulebook.page import Link, Page
from diagnose.report.rulebook.pages import tables
from diagnose.rulebase.rulebase import RuleBase
from diagnose.screens.rows import Rows
from diagnose.screens.rule_search import gist, kind_said


class RuleLinks(ModalScreen[Link | None]):
    """Gives the entry to go to, or None if the grower went back."""

    CSS = """
    RuleLinks { align: center middle; }
    RuleLinks > Vertical {
        width: 76; max-width: 96%; height: auto; max-height: 92%;
        padding: 1 2; border: round $line; background: $background;
    }
    RuleLinks Rows { height: auto; max-height: 16; margin: 1 0; }
    """
    BINDINGS: ClassVar = [Binding("escape", "dismiss(None)", marked("Back"))]

    def __init__(self, named: Mapping[Link, str]) -> None:
        super().__init__()
        self._named = named
        self._links = tuple(named)

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        room = 2 + max(len(kind_said(link.table)) for link in self._links)
        with Vertical():
            yield Label(_("Where to go from here"), markup=False)
            yield Rows(*(Option(_row(link, self._named[link], room)) for link in self._links))
            yield Label(_("Enter goes there, Esc goes back."), markup=False, classes="muted")

    def on_mount(self) -> None:
        """Stand at the first."""
        self.query_one(Rows).highlighted = 0

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Give the entry."""
        self.dismiss(self._links[event.option_index])


def named_in(page: Page, base: RuleBase) -> dict[Link, str]:
    """Return the entries that a page names, each once and with what it says, in the order of the page."""
    known = tables(base)
    links = (piece for part in page.parts for run in part.runs for piece in run if isinstance(piece, Link))
    found: dict[tuple[str, str], Link] = {}
    for link in links:
        if link.id in known.get(link.table, {}):  # measures have no page on the screen
            found.setdefault((link.table, link.id), link)
    return {link: gist(known[link.table][link.id]) for link in found.values()}


def _row(link: Link, said: str, room: int) -> Content:
    return Content.assemble((f"{kind_said(link.table):<{room}}", "$accent"), said)
