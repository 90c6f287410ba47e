"""The widget that holds one chart, and the colours it may use. Loads the plotting library, so import it late."""

from collections.abc import Callable
from dataclasses import dataclass

from rich.text import Text
from textual.color import Color
from textual_plotext import PlotextPlot
from textual_plotext.plot import Plot

LINE = "braille"
"""Eight dots to a cell: the finest line there is. Whatever it shows stands below it in numbers too."""

Ink = tuple[int, int, int] | str


@dataclass(frozen=True, slots=True)
class Inks:
    """Colours by what they stand for; all the terminal's own where there is no colour."""

    text: Ink
    line: Ink
    strong: Ink
    against: Ink


Drawing = Callable[[Plot, Inks], None]


class Chart(PlotextPlot):
    """Draws itself in the app's colours at any size."""

    DEFAULT_CSS = "Chart { width: 100%; max-width: 110; }"

    def __init__(self, drawing: Drawing, height: int) -> None:
        super().__init__()
        self.theme = "clear"
        self._drawing = drawing
        self.styles.height = height

    def render(self) -> Text:
        """Draw anew."""
        plot = self.plt
        plot.clear_figure()
        plot.theme("clear")
        plot.plotsize(self.size.width, self.size.height)
        plot.frame(False)
        plot.xaxes(True, False)
        plot.yaxes(True, False)
        inks = self._inks()
        plot.ticks_color(inks.text)
        plot.axes_color("default")
        self._drawing(plot, inks)
        plot._set_size(self.size.width, self.size.height)  # noqa: SLF001 - as its own `render` has to
        return Text.from_ansi(plot.build())

    def _inks(self) -> Inks:
        if self.app.no_color or self.app.theme == "plain":
            return Inks("default", "default", "default", "default")
        names = self.app.theme_variables
        return Inks(*(Color.parse(names[name]).rgb for name in ("foreground", "muted", "accent", "against")))
