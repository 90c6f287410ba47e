"""The weights of a ledger as signed bars, and the ranking with how far each cause could lie."""

from collections.abc import Sequence

from textual_plotext.plot import Plot

from diagnose.language import _, numeral
from diagnose.ranking import Line, RankedCause
from diagnose.report.page import interval_db
from diagnose.rulebase.strengths import probability
from diagnose.screens.charts.chart import Drawing, Inks

AXES = 2
"""Rows below the bars."""
_LABEL = 34


def weights_chart(lines: Sequence[Line]) -> Drawing:
    """Return the drawing: a row a line of the ledger, to the right for the cause, to the left against it."""

    def draw(plot: Plot, inks: Inks) -> None:
        most = max((abs(line.decibans) for line in lines), default=1.0) or 1.0
        _rows(plot, [_cut(line.text) for line in lines])
        plot.xlim(-most, most)
        weight = numeral(most, "g")
        ends = (_("-{weight} dB against"), _("for +{weight} dB"))
        against, speaks_for = (end.format(weight=weight) for end in ends)
        plot.xticks([-most, 0, most], [against, "0", speaks_for])
        for place, line in enumerate(lines):
            y = len(lines) - 1 - place
            plot.plot(
                [0, line.decibans],
                [y, y],
                marker="━",
                color=inks.strong if line.decibans > 0 else inks.against,
            )
        plot.plot([0, 0], [0, len(lines) - 1], marker="│", color=inks.line)

    return draw


def ranking_chart(causes: Sequence[RankedCause]) -> Drawing:
    """Return the drawing: a dot for each cause's probability on a line from its low to its high."""

    def draw(plot: Plot, inks: Inks) -> None:
        _rows(plot, [_cut(ranked.name) for ranked in causes])
        plot.xlim(0, 100)
        plot.xticks([0, 25, 50, 75, 100], ["0 %", "25 %", "50 %", "75 %", "100 %"])
        for place, ranked in enumerate(causes):
            y = len(causes) - 1 - place
            ends = [100 * probability(score) for score in interval_db(ranked)]
            plot.plot(ends, [y, y], marker="─", color=inks.line)
            plot.scatter([100 * ranked.probability], [y], marker="●", color=inks.strong)

    return draw


def _rows(plot: Plot, labels: Sequence[str]) -> None:
    count = len(labels)
    plot.ylim(0, max(count - 1, 1))
    plot.yticks(list(range(count)), list(reversed(labels)))


def _cut(text: str) -> str:
    return text if len(text) <= _LABEL else text[: _LABEL - 1] + "…"
