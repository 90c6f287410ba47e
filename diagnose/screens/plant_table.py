"""The plants as lines to choose from. Only the lines that show are drawn, so that any number of plants is quick."""

from collections.abc import Mapping, Sequence
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.style import Style
from textual.visual import Visual

from diagnose.collection.overview import Overview
from diagnose.screens.plant_line import header, plant_line

_CHOSEN = "plant-table--chosen"
_HEAD = "plant-table--head"


class PlantTable(ScrollView, can_focus=True):
    """A header, and a line a plant."""

    DEFAULT_CSS = """
    PlantTable { background: $background; padding: 0 2; scrollbar-size-vertical: 1; overflow-x: hidden; }
    PlantTable > .plant-table--head { color: $muted; text-style: underline; }
    PlantTable > .plant-table--chosen { text-style: bold; }
    PlantTable:focus > .plant-table--chosen { background: $selected; text-style: bold; }
    PlantTable:ansi:focus > .plant-table--chosen { text-style: reverse; }
    PlantTable:nocolor:focus > .plant-table--chosen { text-style: reverse; }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {_CHOSEN, _HEAD}
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "go(-1)", show=False),
        Binding("down", "go(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("home", "end(0)", show=False),
        Binding("end", "end(1)", show=False),
        Binding("enter", "choose", show=False),
    ]

    class Chosen(Message):
        """A plant was chosen."""

        def __init__(self, plant_id: int) -> None:
            super().__init__()
            self.plant_id = plant_id

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self.rows: tuple[Overview, ...] = ()
        self._drawn: Mapping[int, str] = {}
        self._at = 0

    def show(self, rows: Sequence[Overview], drawn: Mapping[int, str], *, stay: bool = True) -> None:
        """Show plants, each with its small picture by the plant's id; stay at the plant chosen, or go to the first."""
        kept = self.chosen.plant.id if self.chosen and stay else None
        self.rows, self._drawn = tuple(rows), drawn
        ids = [row.plant.id for row in self.rows]
        self._at = ids.index(kept) if kept in ids else 0
        self.virtual_size = Size(0, len(self.rows) + 1)
        self._reveal()
        self.refresh()

    def stand_at(self, plant_id: int) -> None:
        """Stand at a plant, if it is among those that show."""
        ids = [row.plant.id for row in self.rows]
        if plant_id in ids:
            self._stand(ids.index(plant_id))

    @property
    def chosen(self) -> Overview | None:
        """The plant that is stood at."""
        return self.rows[self._at] if self.rows else None

    def render_line(self, y: int) -> Strip:
        """Draw one line; the header stays at the top."""
        width = self.scrollable_content_region.width
        if y == 0:
            style = self.visual_style + self.get_visual_style(_HEAD)
            return self._strip(Content(header(width)), width, style)
        number = y + self.scroll_offset.y - 1
        if not 0 <= number < len(self.rows):
            return Strip.blank(width, self.visual_style.rich_style)
        row = self.rows[number]
        style = self._chosen_style() if number == self._at else self.visual_style
        line = plant_line(row, self._drawn.get(row.plant.id, ""), width)
        return self._strip(line, width, style).apply_meta({"row": number})

    def on_resize(self) -> None:
        """Keep the line chosen in sight."""
        self._reveal()

    def on_click(self, event: events.Click) -> None:
        """Stand at the line clicked; clicked again, choose it."""
        number = event.style.meta.get("row")
        if number is None:
            return
        if number == self._at:
            self.action_choose()
        self._stand(number)

    def action_go(self, by: int) -> None:
        """Go some lines down or up."""
        self._stand(self._at + by)

    def action_page(self, by: int) -> None:
        """Go as many lines as show."""
        self._stand(self._at + by * self._fits)

    def action_end(self, last: int) -> None:
        """Go to the first or last line."""
        self._stand(last * len(self.rows))

    def action_choose(self) -> None:
        """Choose the plant that is stood at."""
        if self.chosen:
            self.post_message(self.Chosen(self.chosen.plant.id))

    @property
    def _fits(self) -> int:
        return max(self.scrollable_content_region.height - 1, 1)

    def _stand(self, number: int) -> None:
        self._at = max(0, min(number, len(self.rows) - 1))
        self._reveal()
        self.refresh()

    def _reveal(self) -> None:
        top = round(self.scroll_target_y)
        if self._at < top:
            self.scroll_to(y=self._at, animate=False)
        elif self._at >= top + self._fits:
            self.scroll_to(y=self._at - self._fits + 1, animate=False)

    def _chosen_style(self) -> Style:
        reverse = bool(self.get_component_styles(_CHOSEN).text_style.reverse)
        return self.visual_style + self.get_visual_style(_CHOSEN) + Style(reverse=reverse or None)

    def _strip(self, text: Content, width: int, style: Style) -> Strip:
        strips = Visual.to_strips(self, text, width, 1, style)
        return strips[0].extend_cell_length(width, style.rich_style) if strips else Strip.blank(width)
