"""Add a plant to the journal: its name, its kind, and where it stands."""

from collections.abc import Iterable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.suggester import SuggestFromList
from textual.widgets import Input, Label

from diagnose import locations
from diagnose.journal import open_journal
from diagnose.journal.plants import add_plant
from diagnose.language import _, marked
from diagnose.problems import BadInputError
from diagnose.screens.journal_reads import BUSY_S

LONGEST = 200
"""Letters that a field takes (common practice, no source)."""


class AddPlantScreen(ModalScreen[int | None]):
    """Gives the id of the plant that is in the journal now, or None if the grower went back."""

    CSS = """
    AddPlantScreen { align: center middle; }
    AddPlantScreen > Vertical {
        width: 72; max-width: 96%; height: auto; max-height: 96%;
        padding: 0 2; border: round $line; background: $background;
    }
    AddPlantScreen Label { width: 100%; height: auto; }
    """
    BINDINGS: ClassVar = [Binding("escape", "dismiss(None)", marked("Back"))]

    def __init__(self, kinds: Iterable[str], places: Iterable[str], place: str) -> None:
        super().__init__()
        self._kinds, self._places, self._place = sorted(set(kinds)), sorted(set(places)), place

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical():
            yield Label(_("Add a plant"), markup=False, classes="heading-left")
            yield Label(_("Its name, one that no other plant has"), markup=False, classes="muted")
            yield Input(placeholder=_("such as Juniper"), id="name", max_length=LONGEST)
            yield Label(_("Its kind, if you know it"), markup=False, classes="muted")
            yield Input(
                placeholder=_("such as Alocasia"),
                suggester=SuggestFromList(self._kinds, case_sensitive=False),
                id="kind",
                max_length=LONGEST,
            )
            yield Label(_("The place where it stands"), markup=False, classes="muted")
            yield Input(
                self._place,
                placeholder=_("such as east window"),
                suggester=SuggestFromList(self._places, case_sensitive=False),
                id="place",
                max_length=LONGEST,
            )
            yield Label(markup=False, id="said")

    def on_mount(self) -> None:
        """Begin with the name."""
        self._say(_HOW, fault=False)
        self.query_one("#name", Input).focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Go to the next field; from the last one, save."""
        if event.input.id == "place":
            self._save()
        else:
            self.focus_next(Input)

    def _save(self) -> None:
        name, kind, place = (self.query_one(f"#{field}", Input).value for field in ("name", "kind", "place"))
        try:
            with open_journal(locations.journal(), busy_s=BUSY_S) as journal:
                plant = add_plant(journal, name, place=place, kind=kind)
        except BadInputError as error:  # what was typed stays, to be mended
            self._say(" ".join(problem.sentence() for problem in error.problems), fault=True)
            self.query_one("#name", Input).focus()
        else:
            self.dismiss(plant.id)

    def _say(self, text: str, *, fault: bool) -> None:
        said = self.query_one("#said", Label)
        said.update(text if fault else _(text))
        said.set_class(fault, "problem")
        said.set_class(not fault, "muted")


_HOW = marked("Enter goes to the next line, and saves on the last. Right takes a suggestion. Esc goes back.")
