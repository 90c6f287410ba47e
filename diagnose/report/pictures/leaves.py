"""The leaf history: leaves standing over time, those opened and lost between counts, events, the change point."""

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from diagnose.language import _, date_short, month_short
from diagnose.measures.leaves.history import History
from diagnose.report.pictures.svg import Point, dot, line, path, picture, rectangle, text, ticks

_WIDTH, _HEIGHT = 640.0, 348.0
_LEFT, _RIGHT, _TOP = 46.0, 14.0, 54.0
_GROUND = 196.0  # foot of the standing leaves
_ZERO, _UNIT_MOST = 264.0, 34.0  # line between opened (up) and lost (down), and the longest bar
_FOOT = 336.0
_FEWEST_MONTHS = 3  # a shorter time is told by its two ends
_NUMBERED = 14  # with more bars their numbers would meet; the table has them all


@dataclass(frozen=True, slots=True)
class Mark:
    """A dated event, known in the picture by its letter."""

    letter: str
    date: dt.date


@dataclass(frozen=True, slots=True)
class Rise:
    """When losses rose: the best date and its limits."""

    date: dt.date
    earliest: dt.date
    latest: dt.date


def leaves_picture(
    history: History, marks: Sequence[Mark], rise: Rise | None, until: dt.date, label: str
) -> str:
    """Return the history up to a date; it needs at least one stretch."""
    first = min([history.stretches[0].start, *(mark.date for mark in marks)])
    span = max(1, (until - first).days)
    scale = ticks(max([count for _, count in history.present], default=1), 4)

    def x(date: dt.date) -> float:
        return _LEFT + (date - first).days / span * (_WIDTH - _LEFT - _RIGHT)

    def at(date: dt.date, count: float) -> Point:
        return x(date), _GROUND - count / scale[-1] * (_GROUND - _TOP)

    parts = []
    if rise is not None:
        left, right = x(max(first, rise.earliest)), x(min(until, rise.latest))
        parts += [rectangle((left, _TOP), max(2, right - left), _FOOT - 12 - _TOP, "band")]
        parts += [line((x(rise.date), _TOP), (x(rise.date), _FOOT - 12), "against", 1.5, "7 5")]
        near_end = x(rise.date) > _WIDTH / 2
        place = x(rise.date) + (-6 if near_end else 6)
        parts.append(text((place, _GROUND - 8), _("losses rise"), "end" if near_end else "start"))
    parts.append(text((_LEFT, 17), _("leaves standing"), soft=True))
    for mark in scale:
        y = at(first, mark)[1]
        parts += [
            line((_LEFT, y), (_WIDTH - _RIGHT, y)),
            text((_LEFT - 8, y + 4.5), f"{mark:g}", "end", soft=True),
        ]
    counted = [at(date, count) for date, count in history.present if date >= first]
    parts += [path(counted), *(dot(point) for point in counted)] if counted else []
    parts += _flows(history, x)
    for event in marks:
        parts.append(line((x(event.date), 40), (x(event.date), _FOOT - 12), "axis", 1, "2 3"))
        parts.append(text((x(event.date), 35), event.letter, "middle", bold=True))
    parts += _dates(first, until, x)
    return picture(_WIDTH, _HEIGHT, label, parts, "chart")


def _flows(history: History, x: Callable[[dt.date], float]) -> list[str]:
    """Return bars between counts: opened upwards and filled, lost downwards and hollow, each with its number."""
    flows = [(s, s.new or 0, s.lost or 0) for s in history.stretches if s.new or s.lost]
    most = max((max(new, lost) for _stretch, new, lost in flows), default=1)
    parts = [
        line((_LEFT, _ZERO), (_WIDTH - _RIGHT, _ZERO), "axis"),
        text((_LEFT - 8, _ZERO - 8), _("new"), "end", soft=True),
        text((_LEFT - 8, _ZERO + 18), _("lost"), "end", soft=True),
    ]
    for stretch, new, lost in flows:
        left, right = x(stretch.start), x(stretch.end)
        width = max(3.0, min(26.0, right - left - 4))
        middle = (left + right) / 2
        for count, up in ((new, True), (lost, False)):
            height = count / most * _UNIT_MOST
            corner = (middle - width / 2, _ZERO - height if up else _ZERO)
            if count and len(flows) <= _NUMBERED:
                edge = _ZERO - height - 5 if up else _ZERO + height + 15
                parts.append(text((middle, edge), str(count), "middle", soft=True))
            if count:
                parts.append(rectangle(corner, width, height, "for" if up else "against"))
    return parts


def _dates(first: dt.date, until: dt.date, x: Callable[[dt.date], float]) -> list[str]:
    """Return the first of each month, thinned so that labels do not meet, with the year where it is new."""
    months = [
        date
        for n in range((until.year - first.year) * 12 + until.month - first.month + 1)
        if first <= (date := _month(first, n)) <= until
    ]
    if len(months) < _FEWEST_MONTHS:
        ends = ((first, "start"), (until, "end"))
        return [text((x(date), _FOOT + 4), date_short(date), anchor, soft=True) for date, anchor in ends]
    every = -(-len(months) // 8)
    parts = []
    for number, date in enumerate(months[::every]):
        year_is_new = number == 0 or date.month <= every
        words = f"{month_short(date.month)} {date.year}" if year_is_new else month_short(date.month)
        anchor = "end" if x(date) > _WIDTH - 60 else "middle"
        parts.append(text((x(date), _FOOT + 4), words, anchor, soft=True))
    return parts


def _month(first: dt.date, number: int) -> dt.date:
    years, month = divmod(first.month - 1 + number, 12)
    return dt.date(first.year + years, month + 1, 1)
