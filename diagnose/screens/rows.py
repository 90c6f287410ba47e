"""Our list: arrows left and right stay free for the screen."""

from typing import ClassVar

from textual.binding import BindingType
from textual.style import Style
from textual.widgets import OptionList
from textual.widgets.option_list import Option


class Rows(OptionList, inherit_bindings=False):
    """An option list without the sideways scrolling that no row of ours needs. Its text is never markup."""

    BINDINGS: ClassVar[list[BindingType]] = list(OptionList.BINDINGS)

    def __init__(self, *rows: Option, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(*rows, id=id, markup=False)

    def get_visual_style(self, *component_classes: str, partial: bool = False) -> Style:
        """Return a row's style, reversed where the style sheet says so (Textual 8.2 drops that on the way)."""
        style = super().get_visual_style(*component_classes, partial=partial)
        reverse = any(self.get_component_styles(name).text_style.reverse for name in component_classes)
        return style + Style(reverse=True) if reverse else style
