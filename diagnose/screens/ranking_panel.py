"""The ranking as it stands, compact: it goes with the questions and follows every answer."""

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from diagnose.diagnosis import Diagnosis
from diagnose.language import _
from diagnose.ranking import RankedCause
from diagnose.report.words import likelihood, percent, with_house

BAR = 10
"""Cells of a bar that stands for certainty."""
ROOM_FOR_BARS = 58
ROOM_FOR_WORDS = 84
"""Names come first: bars and words show where they cut none."""


class RankingPanel(VerticalScroll, can_focus=False):
    """Causes with a bar, a number and a word; a note says while it is behind the answers."""

    DEFAULT_CSS = """
    RankingPanel #ranking-title { color: $muted; }
    """

    def __init__(self, id: str) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self._diagnosis: Diagnosis | None = None
        self._before: dict[str, int] = {}
        self._drawn_width = 0
        self._lines = 0

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(_("So far"), markup=False, id="ranking-title")
        yield Static(id="ranking-rows")

    def show(self, diagnosis: Diagnosis, *, behind: bool) -> None:
        """Show a ranking; `behind` if answers have come since."""
        title = _("So far … weighing") if behind else _("So far")
        self.query_one("#ranking-title", Static).update(title, layout=False)
        if diagnosis is not self._diagnosis:
            old = self._diagnosis.ranking.causes if self._diagnosis else ()
            self._before = {ranked.id: ranked.rank for ranked in old}
            self._diagnosis = diagnosis
            self._drawn_width = 0
        self._draw()

    def on_resize(self) -> None:
        """Use the width there is."""
        self._draw()

    def _draw(self) -> None:
        """Draw the rows, unless they stand there already; lay the panel out anew only if their number changed."""
        width = self.scrollable_content_region.width or self.size.width
        if self._diagnosis is None or not width or width == self._drawn_width:
            return
        ranking = self._diagnosis.ranking
        if ranking.verdict == "too_little":
            rows = [Content(_("Too little is known yet to rank the causes."))]
        else:
            rows = [
                rank_row(ranked, width, self._before.get(ranked.id, ranked.rank) - ranked.rank)
                for ranked in ranking.causes
            ]
        self.query_one("#ranking-rows", Static).update(
            Content("\n").join(rows), layout=len(rows) != self._lines
        )
        self._drawn_width, self._lines = width, len(rows)


def rank_row(ranked: RankedCause, width: int, rose: int = 0) -> Content:
    """Return a cause's row in `width` cells: rank, name, how far it rose, a bar and its percentage."""
    moved = _moved(rose)
    bar = BAR if width >= ROOM_FOR_BARS else 0
    with_words = width >= ROOM_FOR_WORDS
    right = bar + 8 + (24 if with_words else 0)
    room = max(width - 4 - right, 8)
    name = with_house(ranked.name, house=ranked.house)
    spare = room - len(moved) - 1 if moved else room
    shown = name if len(name) <= spare else name[: spare - 1] + "…"
    gap = " " * (room - len(shown) - len(moved))
    words = f"  {likelihood(ranked.probability)}" if with_words else ""
    return Content.assemble(
        (f"{ranked.rank:>2}  ", "$muted"),
        shown,
        gap,
        (moved, "$muted"),
        "  ",
        probability_bar(ranked.probability) if bar else "",
        f" {percent(ranked.probability):>5}",
        (words, "$muted"),
    )


def _moved(rose: int) -> str:
    if not rose:
        return ""
    return _("up {ranks}").format(ranks=rose) if rose > 0 else _("down {ranks}").format(ranks=-rose)


def probability_bar(probability: float) -> Content:
    """Return a probability as a heavy line on a light one."""
    full = round(probability * BAR)
    return Content.assemble(("━" * full, "$accent"), ("─" * (BAR - full), "$line"))
