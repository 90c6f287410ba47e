"""One plant of the collection in one line, in as many columns as there is room for. Owns no widgets."""

import datetime as dt
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rich.cells import cell_len, set_cell_size
from textual.content import Content

from diagnose.collection.overview import Overview
from diagnose.language import _, marked, ngettext, numeral, pgettext

STEPS, STEP_D = 9, 20
"""Cells of the small picture of the leaves, and days a cell: twice the recent part that losses are judged on."""
_BARS = "▁▂▃▄▅▆▇"
"""Not up to the full block, so that lines do not run into each other."""
_GAP = 2
_NAME = 28
"""A name is given at most so many cells while other columns could use them."""

Counts = Sequence[tuple[dt.date, int]]
"""Dates and leaves, earliest first."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its title, its cells, and what it says of a plant with its small picture."""

    title: str
    width: int
    said: Callable[[Overview, str], str]
    right: bool = False
    gap: int = _GAP


def spark(counts: Counts, today: dt.date) -> str:
    """Return the leaves of the last 180 days, 20 days a cell, from none (lowest) to the most there were (highest).

    A cell without a count shows the one before it, unless no later count follows.
    """
    counts = [(date, leaves) for date, leaves in counts if 0 <= (today - date).days < STEPS * STEP_D]
    most = max((leaves for _, leaves in counts), default=0)
    cells: list[int | None] = [None] * STEPS
    for date, leaves in counts:
        cells[STEPS - 1 - (today - date).days // STEP_D] = leaves
    last = max((n for n, leaves in enumerate(cells) if leaves is not None), default=-1)
    drawn = ""
    held: int | None = None
    for n, cell in enumerate(cells):
        held = held if cell is None else cell
        drawn += " " if held is None or n > last else _bar(held, most)
    return drawn


def trend(row: Overview) -> str:
    """Return whether there are more leaves than at the start of the recent part, fewer, or as many."""
    if row.change is None:
        return ""
    if row.change == 0:
        return pgettext("leaves over time", "steady")
    return (
        pgettext("leaves over time", "rising") if row.change > 0 else pgettext("leaves over time", "falling")
    )


def losses(row: Overview) -> str:
    """Return losses against the plant's own past in at most 13 cells."""
    if row.losses == "no recent count":
        return _("no new count") if row.leaves is not None else ""
    if row.losses == "too few":
        return pgettext("losses, in 13 letters", "too few")
    if row.losses == "steady" or row.ratio is None:
        return pgettext("losses, in 13 letters", "steady")
    if math.isinf(row.ratio):
        return _("rising from 0")
    said = _("rising x{ratio}") if row.losses == "rising" else _("falling x{ratio}")
    return said.format(ratio=numeral(row.ratio, ".2g"))


def due_said(row: Overview) -> str:
    """Return what waits to be done, in words."""
    said = {"look again": _("look again"), "count": pgettext("what is due", "count")}
    return ", ".join(said[one] for one in row.due)


def ago_said(days: int) -> str:
    """Return how many days ago something was."""
    if days <= 1:
        return _("today") if days == 0 else _("yesterday")
    return ngettext("{count} day ago", "{count} days ago", days).format(count=days)


_LEAVES = Column(marked("leaves"), 7, lambda row, _drawn: _number(row.leaves), right=True)
_SPARK = Column(marked("6 months"), STEPS, lambda _row, drawn: drawn)
_TREND = Column(
    marked("trend"),
    11,
    lambda row, _drawn: f"{trend(row)} {row.change:+d}" if row.change else trend(row),
    gap=1,
)
_LOSSES = Column(marked("losses"), 13, lambda row, _drawn: losses(row))
_PLACE = Column(marked("place"), 16, lambda row, _drawn: row.plant.place)
_RATE = Column(marked("lost in 30 days, before"), 23, lambda row, _drawn: _rates(row))
_AGO = Column(marked("counted"), 7, lambda row, _drawn: _ago(row), right=True)
_DUE_SHORT = Column(marked("due"), 6, lambda row, _drawn: _due_short(row))
_DUE_LONG = Column(marked("due"), 17, lambda row, _drawn: due_said(row))
_CASE = Column(marked("case"), 5, lambda row, _drawn: pgettext("a case", "open") if row.case_open else "")

_BY_WIDTH = (
    (140, (_PLACE, _LEAVES, _SPARK, _TREND, _LOSSES, _RATE, _AGO, _DUE_LONG, _CASE)),
    (104, (_PLACE, _LEAVES, _SPARK, _TREND, _LOSSES, _AGO, _DUE_SHORT)),
    (70, (_LEAVES, _SPARK, _TREND, _LOSSES, _AGO, _DUE_SHORT)),
    (50, (_LEAVES, _LOSSES, _AGO, _DUE_SHORT)),
    (0, (_LEAVES, _LOSSES)),
)


def header(width: int) -> str:
    """Return the titles of the columns."""
    return _assembled(width, _("plant"), lambda column: _(column.title)).plain.rstrip()


def plant_line(row: Overview, drawn: str, width: int) -> Content:
    """Return a plant in `width` cells; rising losses are marked by colour beside the word."""
    return _assembled(width, row.plant.name, lambda column: column.said(row, drawn), _losses_style(row))


def _assembled(width: int, name: str, said: Callable[[Column], str], losses_style: str = "") -> Content:
    columns = next(columns for least, columns in _BY_WIDTH if width >= least)
    room = width - sum(column.gap + column.width for column in columns)
    parts: list[tuple[str, str]] = [(_fitted(name, min(room, _NAME)), "")]
    for column in columns:
        style = losses_style if column is _LOSSES else "$muted" if column is _SPARK else ""
        parts.append((" " * column.gap, ""))
        parts.append((_fitted(said(column), column.width, right=column.right), style))
    return Content.assemble(*parts)


def _fitted(text: str, width: int, *, right: bool = False) -> str:
    """Return text in just so many cells; what terminals would obey or turn round is shown as a blank."""
    text = "".join(c if c.isprintable() else " " for c in text)
    if cell_len(text) > width:
        return set_cell_size(set_cell_size(text, width - 1) + "…", width)
    return " " * (width - cell_len(text)) + text if right else set_cell_size(text, width)


def _losses_style(row: Overview) -> str:
    return {"rising": "$against", "falling": "$for"}.get(row.losses, "$muted")


def _bar(leaves: int, most: int) -> str:
    return _BARS[round(leaves / most * (len(_BARS) - 1))] if most else _BARS[0]


def _ago(row: Overview) -> str:
    days = row.days_since_count
    if days is None:
        return _("never")
    return _("today") if days == 0 else _("{days} d").format(days=days)


def _due_short(row: Overview) -> str:
    if len(row.due) > 1:
        return pgettext("what is due", "both")
    said = {"look again": pgettext("what is due, in six letters", "look")}
    said["count"] = pgettext("what is due, in six letters", "count")
    return "".join(said[one] for one in row.due)


def _number(count: int | None) -> str:
    return "" if count is None else str(count)


def _rates(row: Overview) -> str:
    if row.lost_per_30d is None or row.lost_per_30d_before is None:
        return ""
    now, before = numeral(row.lost_per_30d, ".1f"), numeral(row.lost_per_30d_before, ".1f")
    return _("{now}, {before} before").format(now=now, before=before)
