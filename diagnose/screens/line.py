"""Ask for one line of text in a small window."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, Label

from diagnose.language import _, marked


class LineScreen(ModalScreen[str | None]):
    """A question and a field; gives the text, or None if the grower went back."""

    CSS = """
    LineScreen { align: center middle; }
    LineScreen > Vertical {
        width: 72; max-width: 95%; height: auto;
        padding: 1 2; border: round $line; background: $background;
    }
    """
    BINDINGS: ClassVar = [Binding("escape", "dismiss(None)", marked("Back"))]

    def __init__(self, title: str, placeholder: str = "", value: str = "") -> None:
        super().__init__()
        self._title, self._placeholder, self._value = title, placeholder, value

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical():
            yield Label(self._title, markup=False)
            yield Input(self._value, placeholder=self._placeholder, max_length=400)
            yield Label(_("Enter takes it, Esc goes back."), markup=False, classes="muted")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Give the text back."""
        self.dismiss(event.value.strip())
