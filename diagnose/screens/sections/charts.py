"""Charts: leaves over time, light through the year, the chosen cause's weights, the ranking; all told in words too."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from diagnose.language import _, ngettext
from diagnose.measures.leaves.consistency import followed
from diagnose.ranking import Line
from diagnose.report.page import interval_db
from diagnose.report.views import leaves_view, light_view, marked_events, rise_of_losses
from diagnose.report.words import decibans, lower_first, percent
from diagnose.rulebase.strengths import probability
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.entries import hung
from diagnose.screens.sections.worked import WORKING, WorkedSection

if TYPE_CHECKING:
    from diagnose.screens.charts.chart import Drawing

MOST_WEIGHTS = 12
"""Lines drawn; the others are lighter."""
_TALL = 13


@dataclass(frozen=True, slots=True)
class Told:
    """One chart: its title, what it shows in a sentence, the drawing and its height, and the same as a table."""

    title: str
    sentence: str
    drawing: "Drawing"
    height: int
    rows: tuple[tuple[str, ...], ...]


class Sheet(VerticalScroll, inherit_bindings=False):
    """Scrolls up and down; left and right stay free to turn pages."""

    BINDINGS: ClassVar[list[BindingType]] = [
        binding
        for binding in VerticalScroll.BINDINGS
        if isinstance(binding, Binding) and binding.key in ("up", "down", "pageup", "pagedown", "home", "end")
    ]


class ChartsSection(WorkedSection):
    """The plotting library is loaded in the background when the page is first turned to."""

    ABOUT_CAUSE = False
    DEFAULT_CSS = """
    ChartsSection Sheet { padding: 0 1; }
    ChartsSection .title { text-style: bold; }
    ChartsSection .sentence { max-width: 100; margin-bottom: 1; }
    ChartsSection .table { color: $muted; margin: 1 0 2 0; }
    ChartsSection Vertical { height: auto; }
    """

    def compose(self) -> ComposeResult:
        """Lay the page out."""
        yield Sheet(Static(_(WORKING), markup=False, classes="muted"))

    def work(self, reasoner: Reasoner, cause: str) -> Iterator[list[Told]]:
        """Gather what is drawn."""
        yield [*_leaves(reasoner), *_light(reasoner), _weights(reasoner, cause), _ranking(reasoner)]

    def draw(self, *, keep: bool = True) -> None:
        """Put the charts up."""
        if keep:  # they draw themselves anew at any size
            return
        page = self.query_one(Sheet)
        with self.app.batch_update():
            page.remove_children()
            page.mount(
                *(
                    [_block(told) for told in self.result]
                    if self.result
                    else [Static(_(WORKING), markup=False)]
                )
            )


class Table(Static):
    """The same in numbers; headings are stacked word on word, the last column wraps."""

    def __init__(self, rows: Sequence[Sequence[str]]) -> None:
        super().__init__(markup=False, classes="table")
        self._rows = rows

    def on_resize(self) -> None:
        """Use the width there is."""
        self.update(Content("\n").join(table_lines(self._rows, self.size.width)))


def table_lines(rows: Sequence[Sequence[str]], width: int) -> list[Content]:
    """Return a table's lines. The first row holds the headings, stacked word on word if the width asks for it."""
    plain = _padded(rows)
    if max(map(len, plain)) <= width:
        return [Content(line) for line in plain]
    head = [name.split() for name in rows[0]]
    high = max(map(len, head))
    stacks = [
        [words[n - high + len(words)] if n >= high - len(words) else "" for words in head]
        for n in range(high)
    ]
    body = [*stacks, *rows[1:]]
    starts = _padded([row[:-1] for row in body], pad=True)
    return [hung(f"{start}  ", row[-1], width) for start, row in zip(starts, body, strict=True)]


def _padded(rows: Sequence[Sequence[str]], *, pad: bool = False) -> list[str]:
    """Return rows with their cells in columns; the ends of lines are padded too if asked for."""
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = ["  ".join(f"{cell:<{w}}" for cell, w in zip(row, wide, strict=True)) for row in rows]
    return lines if pad else [line.rstrip() for line in lines]


def _block(told: Told) -> Vertical:
    from diagnose.screens.charts.chart import Chart  # noqa: PLC0415 - loads the plotting library

    return Vertical(
        Static(told.title, markup=False, classes="title"),
        Static(told.sentence, markup=False, classes="sentence"),
        Chart(told.drawing, told.height),
        Table(told.rows),
    )


def _leaves(reasoner: Reasoner) -> Iterator[Told]:
    from diagnose.screens.charts.leaves import leaves_chart  # noqa: PLC0415

    diagnosis = reasoner.diagnosis
    view = leaves_view(diagnosis)
    if view is not None:
        history = followed(diagnosis.case)
        marks = [mark for mark, _event in marked_events(diagnosis.case, history)]
        drawing = leaves_chart(history, marks, rise_of_losses(diagnosis), diagnosis.case.date)
        key = "".join(f" {letter}: {event}." for letter, event in view.key)
        yield Told(view.title, view.sentence + key, drawing, _TALL, (view.head, *view.rows))


def _light(reasoner: Reasoner) -> Iterator[Told]:
    from diagnose.screens.charts.light import light_chart  # noqa: PLC0415

    plan = reasoner.plan()
    view = light_view(plan)
    if view is not None and plan.light is not None and plan.light.year is not None:
        drawing = light_chart(plan.light.year, plan.light.situation.month, plan.light.need)
        yield Told(view.title, view.sentence, drawing, _TALL, (view.head, *view.rows))


def _weights(reasoner: Reasoner, cause: str) -> Told:
    from diagnose.screens.charts.bars import AXES, weights_chart  # noqa: PLC0415

    ranked = reasoner.diagnosis.ranking.of(cause)
    lines: Sequence[Line] = ranked.lines[:MOST_WEIGHTS]
    score = decibans(ranked.score_db)
    text = ngettext(
        "{count} line adds up to {score}, which is {percent}.",
        "{count} lines add up to {score}, which is {percent}.",
        len(ranked.lines),
    )
    sentence = text.format(count=len(ranked.lines), score=score, percent=percent(ranked.probability))
    if len(lines) < len(ranked.lines):
        drawn = _("The {count} heaviest are drawn; page 1 has them all.").format(count=len(lines))
        sentence = f"{sentence} {drawn}"
    rows = ((_("weight"), ""), *((decibans(line.decibans).rjust(9), line.text) for line in lines))
    title = _("What weighs for and against {cause}").format(cause=lower_first(ranked.name))
    return Told(title, sentence, weights_chart(lines), len(lines) + AXES, rows)


def _ranking(reasoner: Reasoner) -> Told:
    from diagnose.screens.charts.bars import AXES, ranking_chart  # noqa: PLC0415

    causes = reasoner.diagnosis.ranking.causes
    rows = [(_("cause"), _("now"), _("low"), _("high"))]
    for ranked in causes:
        low, high = (percent(probability(score)) for score in interval_db(ranked))
        rows.append((ranked.name, percent(ranked.probability).rjust(5), low.rjust(5), high.rjust(5)))
    sentence = _(
        "The dot is each cause's probability; the line, where nine in ten such rankings would put it."
    )
    return Told(_("The ranking"), sentence, ranking_chart(causes), len(causes) + AXES, tuple(rows))
