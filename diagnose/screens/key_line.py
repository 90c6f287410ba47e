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

_BETWEEN = "  "


class KeyLine(Static):
    """Keys and what they do, each to be clicked; drawn again only if they change. More lines where one is too short."""

    DEFAULT_CSS = "KeyLine { dock: bottom; height: auto; padding: 0 2; color: $muted; text-wrap: nowrap; }"

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

    def on_resize(self) -> None:
        """Use the width there is."""
        self._draw()

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
            self._draw()

    def _draw(self) -> None:
        room = self.app.size.width - self.styles.gutter.width
        self.update(Content("\n").join(_lines([_said(*key) for key in self._shown], room)))


def _lines(keys: list[Content], room: int) -> list[Content]:
    """Break between keys, never within one."""
    lines: list[Content] = []
    for key in keys:
        longer = Content(_BETWEEN).join([lines[-1], key]) if lines else key
        if lines and longer.cell_length <= room:
            lines[-1] = longer
        else:
            lines.append(key)
    return lines


def _said(key: str, display: str, does: str) -> Content:
    return Content.assemble((display, "$accent bold"), " ", does).stylize(Style.from_meta({"key": key}))
