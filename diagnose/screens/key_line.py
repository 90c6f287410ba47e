"""The line of keys that work now. Cheaper than composing a widget for every key at every change of focus.

Tables of keys (`BINDINGS`, the registry of actions) are written before a language is chosen, so their descriptions are
only marked for translation; they are said here, and nowhere else but in the help.
"""

from textual import events
from textual.content import Content
from textual.screen import Screen
from textual.style import Style
from textual.widgets import Static

from diagnose.language import _


class KeyLine(Static):
    """Keys and what they do, each to be clicked; drawn again only if they change."""

    DEFAULT_CSS = "KeyLine { dock: bottom; height: 1; padding: 0 2; color: $muted; text-wrap: nowrap; }"

    def on_mount(self) -> None:
        """Follow what works."""
        self._shown: tuple[tuple[str, str, str], ...] = ()
        self.screen.bindings_updated_signal.subscribe(self, self._follow)
        self._follow(self.screen)

    @property
    def shown(self) -> tuple[tuple[str, str, str], ...]:
        """The keys shown: name of the key, as it is written, and what it does."""
        return self._shown

    def on_click(self, event: events.Click) -> None:
        """Do as if the key that was clicked had been pressed."""
        key = event.style.meta.get("key")
        if key:
            self.app.simulate_key(key)

    def _follow(self, screen: Screen[object]) -> None:
        if screen is not self.screen or not self.app.app_focus:
            return
        active = [one for one in screen.active_bindings.values() if one.binding.show and one.enabled]
        once = {one.binding.action: one.binding for one in reversed(active)}
        keys = tuple(
            (binding.key, self.app.get_key_display(binding), _(binding.description))
            for binding in reversed(once.values())
        )
        if keys != self._shown:
            self._shown = keys
            self.update(Content("  ").join(_said(*key) for key in keys))


def _said(key: str, display: str, does: str) -> Content:
    return Content.assemble((display, "$accent bold"), " ", does).stylize(Style.from_meta({"key": key}))
