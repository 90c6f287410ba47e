"""Pictures are well-formed, stay inside their frame, and say by form and words what they say by colour."""

import datetime as dt
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.measures.leaves.history import History, Stretch
from diagnose.measures.light import Range
from diagnose.measures.needs import LightNeed
from diagnose.report.pictures import interval_bar, interval_scale, leaves_picture, light_picture, weight_bar
from diagnose.report.pictures.leaves import Mark, Rise
from diagnose.report.pictures.svg import ticks

SVG = "{http://www.w3.org/2000/svg}"
NEED = LightNeed(least_dli_mol_m2_d=1.15, good_dli_mol_m2_d=2.9, origin="L-50")


def drawn(text):
    """Parse a picture and check that all of it lies inside its frame."""
    root = ET.fromstring(text)  # noqa: S314 - our own text
    assert root.tag == SVG + "svg"
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    assert root.attrib["aria-label"]
    assert root.find(SVG + "title").text == root.attrib["aria-label"]
    for element in root.iter():
        for name, most in (
            ("x", width),
            ("x1", width),
            ("x2", width),
            ("cx", width),
            ("y", height),
            ("y1", height),
            ("y2", height),
            ("cy", height),
        ):
            if name in element.attrib:
                assert -0.5 <= float(element.attrib[name]) <= most + 0.5, ET.tostring(element)
        if element.tag == SVG + "rect":
            assert float(element.attrib["x"]) + float(element.attrib["width"]) <= width + 0.5
            assert float(element.attrib["y"]) + float(element.attrib["height"]) <= height + 0.5
        if "points" in element.attrib:
            for point in element.attrib["points"].split():
                x, y = map(float, point.split(","))
                assert -0.5 <= x <= width + 0.5
                assert -0.5 <= y <= height + 0.5
    return root


def words(root):
    return [element.text for element in root.iter(SVG + "text")]


@given(st.integers(-160, 160).map(lambda quarter: quarter / 4))
def test_a_weight_is_a_signed_bar(value):
    root = drawn(weight_bar(value, 22.5))
    axis = float(root.find(SVG + "line").attrib["x1"])
    bars = root.findall(SVG + "rect")
    if value == 0:
        assert bars == []
        return
    left, length = (float(bars[0].attrib[name]) for name in ("x", "width"))
    assert left == pytest.approx(axis if value > 0 else axis - length, abs=0.02)
    assert (bars[0].attrib["fill"] == "#ffffff") == (value < 0)  # hollow against, filled for
    assert ("against" in root.attrib["aria-label"]) == (value < 0)


def test_a_bar_is_as_long_as_its_weight():
    lengths = [
        float(drawn(weight_bar(db, 22.5)).find(SVG + "rect").attrib["width"]) for db in (2.5, 5.0, 10.0)
    ]
    assert lengths[1] == pytest.approx(2 * lengths[0], abs=0.02)
    assert lengths[2] == pytest.approx(4 * lengths[0], abs=0.02)


@given(st.floats(-80, 80), st.floats(0, 30), st.floats(-40, 40))
def test_an_interval_holds_its_dot(score, half, first):
    root = drawn(interval_bar(score, score - half, score + half, first))
    dot = float(root.find(SVG + "circle").attrib["cx"])
    line = next(
        e
        for e in root.iter(SVG + "line")
        if e.attrib.get("class") == "s-for" and e.attrib["y1"] == e.attrib["y2"]
    )
    assert float(line.attrib["x1"]) - 0.01 <= dot <= float(line.attrib["x2"]) + 0.01
    assert "interval" in root.attrib["aria-label"]


def test_the_scale_is_told_in_percent():
    assert words(drawn(interval_scale())) == ["1 %", "10 %", "50 %", "90 %", "99 %"]


amounts = st.floats(0, 60)
years = st.lists(
    st.tuples(amounts, amounts, amounts).map(lambda t: Range(*sorted(t))), min_size=12, max_size=12
).map(tuple)


@given(years, st.integers(0, 11), st.sampled_from([None, NEED]))
def test_any_year_of_light_can_be_drawn(year, month, need):
    root = drawn(light_picture(year, month, need, "Light & <more>"))
    told = words(root)
    assert {"Jan", "Jun", "Dec"} <= set(told)
    assert ("lives on 1.15" in told) == (need is not None)
    assert len(root.findall(SVG + "circle")) == 12
    assert len(root.findall(SVG + "polygon")) == 1


@st.composite
def histories(draw):
    start = draw(st.dates(dt.date(2015, 1, 1), dt.date(2026, 1, 1)))
    present = draw(st.integers(0, 40))
    stretches, counts = [], [(start, present)]
    for _ in range(draw(st.integers(1, 25))):
        end = start + dt.timedelta(days=draw(st.integers(1, 200)))
        new, lost = draw(st.integers(0, 20)), draw(st.integers(0, 20))
        after = max(0, present + new - lost)
        stretches.append(Stretch(start, end, new, lost, present, after))
        counts.append((end, after))
        start, present = end, after
    return History(tuple(stretches), tuple(counts))


@given(histories(), st.integers(-60, 400), st.integers(0, 90), st.booleans())
def test_any_leaf_history_can_be_drawn(history, event_days, later, rises):
    first, last = history.stretches[0].start, history.stretches[-1].end
    until = last + dt.timedelta(days=later)
    event = min(until, first + dt.timedelta(days=event_days))
    rise = Rise(history.stretches[0].end, first, last) if rises else None
    root = drawn(leaves_picture(history, [Mark("A", event)], rise, until, "Leaves"))
    assert "A" in words(root)
    assert ("losses rise" in words(root)) == rises


@given(st.floats(0.001, 1e5))
def test_ticks_are_round_and_reach_the_top(highest):
    marks = ticks(highest)
    assert marks[0] == 0
    assert marks[-1] >= highest
    assert 2 <= len(marks) <= 6
