"""Ask for another answer to a question, only to see what it would do; the case stays as it is."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Input, Label, OptionList

from diagnose.case import AnswerValue
from diagnose.screens.inputs import Asked, Given, NotKnown, field_for


class Supposed:
    """The answer to suppose; None: not known."""

    def __init__(self, answer: AnswerValue | None) -> None:
        self.answer = answer


class SupposeScreen(ModalScreen[Supposed | None]):
    """A window with the question's own field."""

    CSS = """
    SupposeScreen { align: center middle; }
    SupposeScreen > Vertical { width: 84; max-width: 96%; height: auto; max-height: 92%; padding: 1 2; }
    SupposeScreen > Vertical { border: round $line; background: $background; }
    SupposeScreen VerticalScroll { height: auto; max-height: 16; margin: 1 0; }
    SupposeScreen #asked { width: 100%; height: auto; text-style: bold; }
    """
    BINDINGS: ClassVar = [Binding("escape", "dismiss(None)", "Back")]

    def __init__(self, asked: Asked) -> None:
        super().__init__()
        self._asked = asked

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical():
            yield Label("What if the answer were another?", markup=False, classes="muted")
            yield Label(self._asked.question.text, markup=False, id="asked")
            with VerticalScroll(can_focus=False):
                yield field_for(self._asked)
            yield Label("Your case stays as it is. Esc goes back.", markup=False, classes="muted")

    def on_mount(self) -> None:
        """Stand in the field."""
        next(widget for kind in (Input, OptionList) for widget in self.query(kind)).focus()

    def on_given(self, message: Given) -> None:
        """Give the answer back."""
        message.stop()
        self.dismiss(Supposed(message.value))  # type: ignore[arg-type]  # records are never asked for here

    def on_not_known(self, message: NotKnown) -> None:
        """Give back that it is not known."""
        message.stop()
        self.dismiss(Supposed(None))
