"""The ranking against published symptom tables: rows the rules were mended by, and sheets that no rule was changed by.

Every row names its sheet (author, title, year) and tells only what the sheet states. `report.py` prints all figures.
"""

import pytest

import misses
from diagnose.calibration import calibration, top_share
from refit import left_out, pairs
from symptom_rows import HELD_OUT, WORKED_BY, rank_of, ranked, rows

ROWS = rows(WORKED_BY)
HELD = rows(HELD_OUT)


@pytest.fixture(scope="module")
def worked(diagnostician):
    return ranked(diagnostician, WORKED_BY)


@pytest.fixture(scope="module")
def held_out(diagnostician):
    return ranked(diagnostician, HELD_OUT)


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row.id not in misses.WORKED_BY], ids=lambda row: row.id
)
def test_the_published_cause_comes_first_or_second(diagnostician, row):
    assert rank_of(diagnostician.diagnose(row.case).ranking, row) <= 2, f"{row.sheet}: {row.observation}"


@pytest.mark.parametrize("row", [row for row in ROWS if row.id in misses.WORKED_BY], ids=lambda row: row.id)
def test_a_recorded_miss_is_still_one(diagnostician, row):
    assert rank_of(diagnostician.diagnose(row.case).ranking, row) > 1, (
        f"no longer a miss: take {row.id} from the list"
    )


def test_every_recorded_miss_is_a_row():
    assert set(misses.WORKED_BY) <= {row.id for row in ROWS}
    assert set(misses.HELD_OUT) <= {row.id for row in HELD}


def test_rows_are_many_named_and_used_once(base):
    assert len(ROWS) >= 80
    assert len(HELD) >= 40
    every = [*ROWS, *HELD]
    assert len({row.id for row in every}) == len(every)
    assert not {row.sheet for row in ROWS} & {row.sheet for row in HELD}
    for row in every:
        assert row.sheet
        assert row.observation
        assert set(row.causes) <= set(base.causes)


def test_rows_are_cases_without_a_fault(diagnostician):
    for row in [*ROWS, *HELD]:
        assert diagnostician.diagnose(row.case).problems == (), row.id


# a little below what was measured: 92.5, 95.0, 97.5 % of the rows worked by; 69.0, 77.5, 85.9 % of those held out
@pytest.mark.parametrize(("places", "worked_by", "held"), [(1, 0.88, 0.65), (2, 0.92, 0.74), (3, 0.95, 0.83)])
def test_how_often_the_published_cause_is_among_the_first(worked, held_out, places, worked_by, held):
    assert top_share([rank_of(ranking, row) for row, ranking in worked], places) >= worked_by
    assert top_share([rank_of(ranking, row) for row, ranking in held_out], places) >= held


def test_stated_probabilities_are_about_honest_on_sheets_not_used_to_set_them(held_out):
    found = calibration(pairs(held_out))
    assert found.expected_error <= 0.07  # measured 0.049
    assert found.brier <= 0.08  # measured 0.072; always stating the mean share (11.8 %) gives 0.104
    assert found.murphy.resolution > 3 * found.murphy.reliability


def test_fitting_the_level_of_priors_and_strengths_would_gain_little(worked):
    shipped, refitted = calibration(pairs(worked)), calibration(left_out(worked))
    assert shipped.brier - refitted.brier <= 0.015  # measured 0.0076
    assert (
        refitted.brier < shipped.brier
    )  # tables tell clean cases, so they ask for stronger evidence than we give


def test_scores_above_twenty_decibans_are_rare(worked, held_out):
    assert not [row.id for row, ranking in [*worked, *held_out] if ranking.first.score_db > 20]
