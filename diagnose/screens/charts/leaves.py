"""Leaves standing over time, with dated events by letter and the day on which losses rose."""

import datetime as dt
from collections.abc import Sequence

from textual_plotext.plot import Plot

from diagnose.language import _, month_short, numeral
from diagnose.measures.leaves.history import History
from diagnose.report.pictures.leaves import Mark, Rise
from diagnose.report.pictures.svg import ticks
from diagnose.screens.charts.chart import LINE, Drawing, Inks

_MOST_DATES = 6


def leaves_chart(history: History, marks: Sequence[Mark], rise: Rise | None, until: dt.date) -> Drawing:
    """Return the drawing; the history has at least one stretch."""
    first = min([history.stretches[0].start, *(mark.date for mark in marks)])

    def x(date: dt.date) -> int:
        return (date - first).days

    def draw(plot: Plot, inks: Inks) -> None:
        counts = [(x(date), count) for date, count in history.present if date >= first]
        scale = ticks(max([count for _, count in counts], default=1), 4)
        top = scale[-1] * 1.15
        plot.ylim(0, top)
        plot.xlim(0, max(x(until), 1))
        plot.yticks(scale, [numeral(mark, "g") for mark in scale])
        dates = _months(first, until)
        plot.xticks([x(date) for date in dates], [_month(date, n == 0) for n, date in enumerate(dates)])
        for mark in marks:
            plot.vline(x(mark.date), inks.line)
        if rise is not None:
            plot.vline(x(rise.date), inks.against)
        if counts:
            days, leaves = zip(*counts, strict=True)
            plot.plot(days, leaves, marker=LINE, color=inks.strong)
            plot.scatter(days, leaves, marker="●", color=inks.strong)
        for mark in marks:
            plot.text(mark.letter, x(mark.date), top, color=inks.text)
        if rise is not None:
            late = x(rise.date) > x(until) / 2
            said = _("losses rise")
            said = f"{said} " if late else f" {said}"
            plot.text(said, x(rise.date), 0, color=inks.against, alignment="right" if late else "left")

    return draw


def _months(first: dt.date, until: dt.date) -> list[dt.date]:
    """Return the firsts of months within, thinned so that their names do not meet."""
    firsts = [
        dt.date(first.year + month // 12, month % 12 + 1, 1)
        for month in range(
            first.month, first.month + (until.year - first.year) * 12 + until.month - first.month
        )
    ]
    within = [date for date in firsts if first <= date <= until]
    return within[:: -(-len(within) // _MOST_DATES) or 1] or [first]


def _month(date: dt.date, with_year: bool) -> str:
    name = month_short(date.month)
    return f"{name} {date.year}" if with_year or date.month == 1 else name
