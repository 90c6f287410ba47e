"""Since when more leaves fall, and after what."""

import datetime as dt
from itertools import product

import pytest

from diagnose.case import Place
from diagnose.measures.leaves.change import rate_change
from diagnose.measures.leaves.since_when import days_get_shorter
from leaf_cases import case_of, measured, on

QUIET, BUSY = (1, 1), (3, 3)
RISE = [(0, 0)] * 20 + [(1, 1)] * 12
RISEN_ON = 140


def test_a_rise_is_dated_with_limits():
    found = measured(case_of(RISE))["loss_change_days_ago"]
    assert found.value == 12 * 7
    assert found.low <= 12 * 7 <= found.high
    assert found.remark.startswith("none were lost before; p = ")


@pytest.mark.parametrize(
    ("events", "after"),
    [
        ([(RISEN_ON - 10, "moved")], "moved"),
        ([(RISEN_ON - 40, "fed"), (RISEN_ON - 10, "repotted")], "repotted"),
        ([(RISEN_ON - 120, "moved")], "none"),
        ([(RISEN_ON + 60, "moved")], "none"),
        ([], "none"),
    ],
)
def test_the_rise_is_laid_to_the_last_event_before_it(events, after):
    assert measured(case_of(RISE, events=events))["loss_change_after"].value == after


def test_an_event_told_as_an_answer_counts_like_a_dated_one():
    found = measured(case_of(RISE), {"days_since_heating_on": 12 * 7 + 5})
    assert found["loss_change_after"].value == "heating_on"


def test_a_rise_in_autumn_with_no_event_is_laid_to_the_season():
    assert on(RISEN_ON).month == 5  # autumn in the south
    for place, after in (
        (Place(latitude=-40), "season"),
        (Place(city="Wellington", country="NZ"), "season"),
        (Place(latitude=50), "none"),
        (Place(), "none"),
    ):
        assert measured(case_of(RISE, place=place))["loss_change_after"].value == after


def test_a_short_burst_after_an_event_is_found_though_it_is_over():
    weeks = [(0, 0)] * 20 + [(0, 3), (0, 3), (0, 2)] + [(0, 0)] * 16
    case = case_of(weeks, present=14, events=[(RISEN_ON, "moved")])
    found = measured(case)
    assert found["loss_change_after"].value == "moved"
    assert found["loss_change_days_ago"].low <= 19 * 7 <= found["loss_change_days_ago"].high


def test_steady_losses_and_a_fall_give_no_change():
    assert "loss_change_days_ago" not in measured(case_of([QUIET] * 30))
    assert "loss_change_days_ago" not in measured(case_of([BUSY] * 15 + [(0, 0)] * 15, present=9))


@pytest.mark.parametrize("rises_only", [False, True])
@pytest.mark.parametrize(
    ("counts", "exposures"),
    [((0, 0, 1, 3), (7, 7, 14, 7)), ((0, 1, 0, 2, 2), (3, 9, 2, 5, 6)), ((2, 0), (1, 1))],
)
def test_p_is_the_exact_sum_over_all_outcomes(counts, exposures, rises_only):
    found = rate_change(counts, exposures, rises_only=rises_only)
    if found is None:
        assert rises_only
        return
    best = gain(counts, exposures, rises_only)
    total, span = sum(counts), sum(exposures)
    p = 0.0
    for where in product(range(len(counts)), repeat=total):  # each of the losses falls somewhere
        outcome = [where.count(n) for n in range(len(counts))]
        if gain(outcome, exposures, rises_only) >= best - 1e-9:
            chance = 1.0
            for n in where:
                chance *= exposures[n] / span
            p += chance
    assert found.p == pytest.approx(p, abs=1e-9)


def gain(counts, exposures, rises_only):
    """Return the largest log likelihood ratio of a change, written out afresh."""
    from math import log

    total, span, best = sum(counts), sum(exposures), 0.0
    for n in range(1, len(counts)):
        before, days = sum(counts[:n]), sum(exposures[:n])
        if rises_only and before / days >= total / span:
            continue
        parts = ((before, days), (total - before, span - days))
        best = max(best, sum(k * log(k / d * span / total) for k, d in parts if k))
    return best


def test_days_shorten_in_autumn_only_and_not_at_the_equator():
    assert days_get_shorter(dt.date(2024, 10, 15), 50)
    assert not days_get_shorter(dt.date(2024, 4, 15), 50)
    assert days_get_shorter(dt.date(2024, 4, 15), -40)
    assert not days_get_shorter(dt.date(2024, 10, 15), 1)
    assert not days_get_shorter(dt.date(2024, 1, 31), 50)
