"""Rates, trend and net change."""

import pytest

from diagnose.case import Case, Leaf, LeafCount
from diagnose.measures.leaves.rates import difference_interval
from leaf_cases import case_of, measured, on

QUIET, ONE = (0, 0), (1, 1)


def test_rates_count_leaves_over_days_with_exact_limits():
    found = measured(case_of([(1, 0), (0, 2), (1, 0)], every=10))
    assert found["new_leaves_per_30d"].value == 2
    assert found["new_leaves_per_30d"].low == pytest.approx(0.242, abs=5e-4)  # Garwood: 2 in 30 days
    assert found["new_leaves_per_30d"].high == pytest.approx(7.225, abs=5e-4)
    assert found["lost_leaves_per_30d"].remark == "30 days of counts: interval wide"


def test_rates_are_of_the_last_ninety_days():
    found = measured(case_of([(3, 3)] * 20 + [QUIET] * 13))
    assert found["lost_leaves_per_30d"].value == 0
    assert found["lost_leaves_per_30d"].high == pytest.approx(3.689 * 30 / 91, abs=1e-3)


def test_a_history_that_ended_long_ago_says_nothing_about_now():
    found = measured(case_of([ONE] * 20, date=on(20 * 7 + 91)))
    assert not {"new_leaves_per_30d", "lost_leaves_per_30d", "loss_trend", "net_leaves_per_30d"} & set(found)


def test_a_rise_a_fall_and_no_change_are_told_apart():
    quiet, busy = [QUIET] * 13, [ONE] * 13
    assert measured(case_of(quiet + busy))["loss_trend"].value == "rising"
    assert measured(case_of(busy + quiet))["loss_trend"].value == "falling"
    steady = measured(case_of([ONE] * 26))
    assert steady["loss_trend"].value == "steady"
    assert steady["loss_ratio"].value == 1
    assert steady["loss_ratio"].low < 1 < steady["loss_ratio"].high


def test_too_few_losses_give_no_trend():
    found = measured(case_of([QUIET, (0, 1), QUIET, (0, 1)]))
    assert "loss_trend" not in found
    assert found["loss_ratio"].remark.startswith("1 lost in the last 14 days against 1 in the 14 before")


def test_a_ratio_that_would_be_infinite_is_not_given():
    found = measured(case_of([QUIET] * 13 + [ONE] * 13))
    assert "loss_ratio" not in found


def test_net_change_from_counts_from_presence_alone_and_from_answers():
    assert measured(case_of([(1, 0), (0, 2), (0, 0)], every=10))["net_leaves_per_30d"].value == -1
    rows = tuple(LeafCount(date=on(day), present=present) for day, present in ((0, 9), (30, 8), (60, 7)))
    alone = measured(Case(date=on(60), leaf_history=rows))
    assert alone["net_leaves_per_30d"].value == -1
    assert "lost_leaves_per_30d" not in alone
    told = measured(Case(date=on(0)), {"leaves_standing": 5, "leaves_before": 11})
    assert told["net_leaves_per_30d"].value == -2
    assert told["net_leaves_per_30d"].used == ("leaves_standing", "leaves_before")


def test_difference_of_a_count_with_itself_is_even():
    low, high = difference_interval(4, 4)
    assert low == pytest.approx(-high)


def test_the_event_that_starts_the_clock_is_not_counted():
    leaves = (Leaf(opened=on(0)), Leaf(opened=on(30)), Leaf(opened=on(60), lost=None))
    found = measured(Case(date=on(60), leaves=leaves))
    assert found["new_leaves_per_30d"].value == 1
    assert found["new_leaves_per_30d"].used == ("leaves",)
