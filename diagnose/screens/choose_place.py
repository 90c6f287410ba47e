"""Choose a place to count at."""

from collections import Counter
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Label, OptionList
from textual.widgets.option_list import Option

from diagnose.language import _, marked, ngettext
from diagnose.screens.journal_reads import Collection
from diagnose.screens.rows import Rows


class ChoosePlace(ModalScreen[str | None]):
    """Gives the place, an empty text for all plants, or None if the grower went back."""

    CSS = """
    ChoosePlace { align: center middle; }
    ChoosePlace > Vertical {
        width: 60; max-width: 95%; height: auto; max-height: 95%;
        padding: 1 2; border: round $line; background: $background;
    }
    ChoosePlace Rows { height: auto; max-height: 14; margin: 1 0; }
    """
    BINDINGS: ClassVar = [Binding("escape", "dismiss(None)", marked("Back"))]

    def __init__(self, collection: Collection) -> None:
        super().__init__()
        plants = Counter(row.plant.place for row in collection.rows)
        due = Counter(row.plant.place for row in collection.rows if "count" in row.due)
        self._places = [("", plants.total(), due.total())]
        self._places += [(place, plants[place], due[place]) for place in collection.places]

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical():
            yield Label(_("Where do you count?"), markup=False)
            yield Rows(*(Option(_said(*one)) for one in self._places))
            yield Label(_("Enter takes it, Esc goes back."), markup=False, classes="muted")

    def on_mount(self) -> None:
        """Stand at the place with most to count."""
        due = [place[2] for place in self._places[1:]]
        self.query_one(Rows).highlighted = 1 + due.index(max(due))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Give the place."""
        self.dismiss(self._places[event.option_index][0])


def _said(place: str, plants: int, due: int) -> Content:
    count = ngettext("{count} plant, {due} due", "{count} plants, {due} due", plants)
    return Content.assemble(
        place or _("All plants, place by place"),
        ("  " + count.format(count=plants, due=due), "$muted"),
    )
