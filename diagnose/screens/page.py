"""What all screens share: a heading, the keys from the registry, the way back and help."""

from typing import TYPE_CHECKING, Any, ClassVar, TypeVar, cast

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.screen import Screen
from textual.widgets import Label

from diagnose.screens.actions import bindings
from diagnose.screens.key_line import KeyLine

if TYPE_CHECKING:
    from diagnose.screens.app import DiagnoseApp

Result = TypeVar("Result")


class Page(Screen[Result]):
    """A full screen; `PLACE` names it in the registry of actions."""

    PLACE: ClassVar[str]

    def __init_subclass__(cls, **more: Any) -> None:
        if "PLACE" in cls.__dict__:
            cls.BINDINGS = list(bindings(cls.PLACE))
        super().__init_subclass__(**more)

    @property
    def desk(self) -> "DiagnoseApp":
        """The application."""
        return cast("DiagnoseApp", self.app)

    def heading(self, left: str, right: str = "") -> ComposeResult:
        """Yield the heading: what is shown, and how it stands."""
        with Horizontal(classes="heading"):
            yield Label(left, markup=False, classes="heading-left", id="heading-left")
            yield Label(right, markup=False, classes="heading-right", id="heading-right")

    def retitle(self, left: str, right: str) -> None:
        """Change the heading."""
        self.query_one("#heading-left", Label).update(left)
        self.query_one("#heading-right", Label).update(right)

    def foot(self) -> KeyLine:
        """Return the line of keys."""
        return KeyLine()

    def action_show_help(self) -> None:
        """Show what the keys do."""
        from diagnose.screens.help import HelpScreen  # noqa: PLC0415

        self.app.push_screen(HelpScreen(self.PLACE))

    def action_command_palette(self) -> None:
        """Find anything by a few letters."""
        self.app.action_command_palette()

    def action_back(self) -> None:
        """Go back."""
        self.dismiss()

    async def action_quit(self) -> None:
        """Leave the application."""
        await self.app.action_quit()
