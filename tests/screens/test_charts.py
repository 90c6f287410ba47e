"""Charts: what is drawn where, the same in words and numbers, at small sizes, and loaded only when wanted."""

import datetime as dt
import subprocess
import sys

import pytest
from textual_plotext.plot import Plot

from diagnose.case import Event, LeafCount
from diagnose.measures.leaves.history import History, Stretch
from diagnose.measures.light import Range
from diagnose.measures.needs import LightNeed
from diagnose.ranking import Line
from diagnose.report.pictures.leaves import Mark, Rise
from diagnose.screens.charts.bars import AXES, weights_chart
from diagnose.screens.charts.chart import Inks
from diagnose.screens.charts.leaves import leaves_chart
from diagnose.screens.charts.light import light_chart
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.sections.charts import table_lines
from looking import compare, settled, shows, text_of, until

PLAIN = Inks("default", "default", "default", "default")


def drawn(drawing, width=60, height=12):
    """Return a drawing as lines of text."""
    plot = Plot()
    plot.plotsize(width, height)
    plot.theme("clear")
    plot.frame(False)
    plot.xaxes(True, False)
    plot.yaxes(True, False)
    drawing(plot, PLAIN)
    plot._set_size(width, height)
    return [line.rstrip() for line in Plot.uncolorize(plot.build()).splitlines()]


def day(month, number=1):
    return dt.date(2026, month, number)


HISTORY = History(
    (Stretch(day(5), day(7), 1, 1, 6, 6), Stretch(day(7), day(9), 0, 4, 6, 2)),
    ((day(5), 6), (day(7), 6), (day(9), 2)),
)


def test_leaves_marks_events_and_the_rise_on_their_days():
    lines = drawn(leaves_chart(HISTORY, [Mark("A", day(6))], Rise(day(8), day(7), day(9)), day(9)))
    letter = next(line.index("A") for line in lines if "A" in line)
    start, end = lines[-2].index("└") + 1, 59
    assert abs(letter - (start + 31 / 123 * (end - start))) <= 1.5  # 1 June, of 1 May to 1 September
    rise = next(line for line in lines if "losses rise" in line)
    assert rise.index("losses rise") < start + 92 / 123 * (end - start) <= len(rise) + 2
    assert sum(line.count("●") for line in lines) == 3
    assert any("Jun 2026" in line for line in lines)


def test_light_names_what_is_needed_and_now():
    year = tuple(Range(value, value / 2, value * 2) for value in (1, 1, 2, 3, 4, 5, 5, 4, 3, 2, 1, 1))
    need = LightNeed(least_dli_mol_m2_d=2.0, good_dli_mol_m2_d=6.0, origin="common practice")
    lines = drawn(light_chart(year, 11, need))
    text = "\n".join(lines)
    assert "lives on 2" in text
    assert "grows well from 6" in text
    assert lines[0].rstrip().endswith("now")
    higher = next(n for n, line in enumerate(lines) if "grows well" in line)
    assert higher < next(n for n, line in enumerate(lines) if "lives on" in line)


@pytest.mark.parametrize("weights", [(7.5, -5.0, 2.5), (-7.5,), (0.5, 20.0)])
def test_weights_stand_on_their_side_one_row_each(weights):
    lines = [Line("evidence", value, f"line {value:g}", "rule") for value in weights]
    rows = drawn(weights_chart(lines), 70, len(lines) + AXES)
    zero = 14 + round((70 - 15) / 2)
    for value, row in zip(weights, rows, strict=False):
        assert f"line {value:g}" in row
        bar = [n for n, cell in enumerate(row) if cell == "━"]
        middle = next((n for n, cell in enumerate(row) if cell == "│"), zero)
        if abs(value) == max(map(abs, weights)):
            assert all(n > middle for n in bar) if value > 0 else all(n < middle for n in bar)
    lengths = [row.count("━") for row, _ in zip(rows, weights, strict=False)]
    assert lengths == sorted(lengths, key=lambda length: -length) or abs(weights[0]) < abs(weights[-1])


@pytest.mark.parametrize(("width", "lines"), [(60, 3), (26, 5)])
def test_tables_stack_their_headings_when_there_is_no_room(width, lines):
    told = table_lines(
        [("month", "light there expected", "is"), ("January", "0.4", "dark"), ("July", "9", "bright")], width
    )
    assert len(told) == lines
    assert max(len(line.plain) for line in told) <= width


COUNTS = [
    LeafCount(date=day(9), present=8, new=0, lost=0),
    LeafCount(date=day(10), present=8, new=1, lost=1),
    LeafCount(date=day(11), present=3, new=0, lost=5, lost_which="oldest"),
]


@pytest.fixture
def case(saved):
    events = [Event(date=day(10, 5), kind="moved", note="to the corner [/")]
    return saved(
        title="Juniper", answers={"drooping": "none", "night_low_c": 9.0}, leaf_history=COUNTS, events=events
    )


async def charts(pilot):
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
    await pilot.press("f8", "8")
    await settled(pilot)
    await shows(pilot, "Leaves over time")


@pytest.mark.parametrize("size", [(80, 24), (120, 36), (160, 45)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_how_the_charts_look(make_app, case, size):
    async with make_app(case).run_test(size=size) as pilot:
        await charts(pilot)
        compare(pilot.app, f"page_charts_{size[0]}x{size[1]}")


async def test_charts_follow_the_width_and_tell_everything_in_numbers_too(make_app, case):
    async with make_app(case).run_test(size=(120, 60)) as pilot:
        await charts(pilot)
        await shows(pilot, "stood at first and 3 at last", "corner [/.", "1 Oct 2026", "oldest")
        await pilot.press("end")
        await shows(pilot, "The ranking", "Too cold at night", "0 %", "100 %")
        for width, height in ((80, 24), (60, 16), (160, 45)):
            await pilot.resize_terminal(width, height)
            await settled(pilot)
            assert "F1 Help" in text_of(pilot.app)


def test_the_plotting_library_waits_until_a_chart_is_wanted():
    code = (
        "import sys, diagnose.screens.app, diagnose.screens.questions, diagnose.screens.review\n"
        "print(sorted({name.partition('.')[0] for name in sys.modules} & {'plotext', 'textual_plotext', 'pvlib', 'scipy'}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"
