"""Choose the language that is spoken; each goes by its own name (Unicode CLDR)."""

from typing import ClassVar

from babel.core import Locale
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Label, OptionList
from textual.widgets.option_list import Option

from diagnose.language import _, languages, marked, spoken
from diagnose.screens.rows import Rows


class ChooseLanguage(ModalScreen[str | None]):
    """Gives the language's code, or None if the grower went back."""

    CSS = """
    ChooseLanguage { align: center middle; }
    ChooseLanguage > Vertical {
        width: 60; max-width: 95%; height: auto; max-height: 95%;
        padding: 1 2; border: round $line; background: $background;
    }
    ChooseLanguage Rows { height: auto; max-height: 14; margin: 1 0; }
    """
    BINDINGS: ClassVar = [Binding("escape", "dismiss(None)", marked("Back"))]

    def compose(self) -> ComposeResult:
        """Lay the window out."""
        with Vertical():
            yield Label(_("Language"), markup=False)
            yield Rows(*(Option(Content(own_name(one)), id=one) for one in languages()))
            yield Label(_("Enter takes it, Esc goes back."), markup=False, classes="muted")

    def on_mount(self) -> None:
        """Stand at the language spoken now."""
        self.query_one(Rows).highlighted = languages().index(spoken())

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Give the language."""
        self.dismiss(event.option_id)


def own_name(language: str) -> str:
    """Return a language's own name, such as Deutsch."""
    locale = Locale.parse(language)
    return locale.get_display_name(locale) or language
