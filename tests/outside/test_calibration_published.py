"""Calibration figures against published definitions, worked by hand on the toy of eight forecasts (S-13, S-14)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.calibration import bins, brier, calibration, expected_error, murphy, top_share

# Brier 1950; Murphy 1973; Naeini et al. 2015; Guo et al. 2017: toy computed from their definitions
STATED = (0.9, 0.9, 0.6, 0.6, 0.2, 0.2, 0.2, 0.1)
CAME_TRUE = (1, 1, 1, 0, 0, 0, 1, 0)
TOY = [(p, bool(y)) for p, y in zip(STATED, CAME_TRUE, strict=True)]
ONE_A_VALUE = (0.0, 0.15, 0.4, 0.75, 1.0)


def test_brier_and_its_parts():
    assert brier(TOY) == pytest.approx(0.15875)
    parts = murphy(TOY, bins(TOY, ONE_A_VALUE))
    assert parts.reliability == pytest.approx(0.012917, abs=5e-7)
    assert parts.resolution == pytest.approx(0.104167, abs=5e-7)
    assert parts.uncertainty == 0.25
    assert parts.within == pytest.approx(0, abs=1e-12)


def test_expected_calibration_error():
    assert expected_error(bins(TOY, ONE_A_VALUE)) == pytest.approx(0.1125)


def test_the_table_of_the_toy():
    table = [(one.count, one.stated, one.came_true) for one in bins(TOY, ONE_A_VALUE)]
    assert table == [
        (1, pytest.approx(0.1), 0),
        (3, pytest.approx(0.2), pytest.approx(1 / 3)),
        (2, pytest.approx(0.6), 0.5),
        (2, pytest.approx(0.9), 1),
    ]


PAIRS = st.lists(st.tuples(st.floats(0, 1), st.booleans()), min_size=1, max_size=60)


@given(PAIRS)
def test_the_parts_always_add_up_and_the_bins_hold_every_pair(pairs):
    found = calibration(pairs)
    parts = found.murphy
    assert parts.reliability - parts.resolution + parts.uncertainty + parts.within == pytest.approx(
        found.brier
    )
    assert sum(one.count for one in found.bins) == found.count == len(pairs)
    assert 0 <= found.expected_error <= 1
    # Jensen: the squared mean gap is never above the mean squared gap
    assert found.expected_error**2 <= parts.reliability + 1e-12


def test_the_edges_belong_to_the_bin_above_save_the_last():
    assert [(one.low, one.count) for one in bins([(0.1, True), (0.09, False), (1.0, True), (0.9, True)])] == [
        (0.0, 1),
        (0.1, 1),
        (0.9, 2),
    ]


def test_top_share():
    assert [top_share([1, 3, 2, 1], places) for places in (1, 2, 3)] == [0.5, 0.75, 1.0]
