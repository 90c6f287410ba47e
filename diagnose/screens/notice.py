"""Sentences the grower has to know of, such as what of a file could not be used."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Label, Static

from diagnose.language import _, marked


class NoticeScreen(ModalScreen[None]):
    """Faults, one sentence each; Enter or Esc goes on."""

    CSS = """
    NoticeScreen { align: center middle; }
    NoticeScreen > Vertical {
        width: 90; max-width: 95%; height: auto; max-height: 90%;
        padding: 1 2; border: round $line; background: $background;
    }
    NoticeScreen VerticalScroll { height: auto; max-height: 16; margin: 1 0; }
    NoticeScreen Static { margin-bottom: 1; }
    """
    BINDINGS: ClassVar = [Binding("escape,enter", "dismiss", marked("Go on"))]

    def __init__(self, sentences: Sequence[str], remark: str = "", *, rest: bool = True) -> None:
        """Tell sentences; without a rest there is nothing to go on with."""
        super().__init__()
        self._sentences, self._remark, self._rest = sentences, remark, rest

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical():
            title = _("Not all could be used") if self._rest else _("That did not work")
            yield Label(title, markup=False, classes="heading-left")
            with VerticalScroll():
                for sentence in self._sentences:
                    yield Static(sentence, markup=False)
            if self._remark:
                yield Static(self._remark, markup=False)
            then = _("Enter goes on with the rest.") if self._rest else _("Enter goes back.")
            yield Label(then, markup=False, classes="muted")
