"""Say what a case turned out to be: a cause, the likeliest by the last ranking first."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Label, OptionList
from textual.widgets.option_list import Option

from diagnose.language import _
from diagnose.report.words import percent
from diagnose.screens.rows import Rows

Cause = tuple[str, str, float | None]
"""Id, name, and how probable the last ranking said it was."""


class SettleScreen(ModalScreen[tuple[str, str] | None]):
    """Gives the cause's id and how one knows, or None if the grower went back."""

    CSS = """
    SettleScreen { align: center middle; }
    SettleScreen > Vertical {
        width: 72; max-width: 95%; height: auto; max-height: 95%;
        padding: 1 2; border: round $line; background: $background;
    }
    SettleScreen Rows { height: auto; max-height: 10; }
    SettleScreen Label { width: 100%; }
    """
    BINDINGS: ClassVar = [Binding("escape", "dismiss(None)", "Back")]

    def __init__(self, plant: str, causes: Sequence[Cause]) -> None:
        super().__init__()
        self._plant, self._causes = plant, causes
        self._chosen = ""

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical():
            title = _("What it turned out to be: {plant}").format(plant=self._plant)
            yield Label(title, markup=False, classes="heading-left")
            yield Rows(*(Option(_said(one), id=one[0]) for one in self._causes), id="causes")
            yield Label(_("How do you know?"), markup=False)
            yield Input(placeholder=_("such as brown, soft roots when unpotted"), max_length=400)
            hint = _("Enter takes the cause, then Enter saves it. Esc goes back.")
            yield Label(hint, markup=False, classes="muted")

    def on_mount(self) -> None:
        """Stand at the likeliest."""
        self.query_one(Rows).highlighted = 0

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Take the cause, and ask how one knows."""
        self._chosen = event.option_id or ""
        self.query_one(Input).focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Give both back; without a cause, ask for it first."""
        if self._chosen:
            self.dismiss((self._chosen, event.value.strip()))
        else:
            self.query_one(Rows).focus()


def _said(cause: Cause) -> Content:
    _id, name, probability = cause
    return Content.assemble(name, ("" if probability is None else f"  {percent(probability)}", "$muted"))
