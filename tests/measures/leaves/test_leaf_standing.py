"""Leaves standing, against the usual, and the share lost in a month."""

import pytest

from diagnose.case import Case, Leaf
from diagnose.measures.needs import LeafNumber, PlantNeeds
from leaf_cases import case_of, measured, on

USUAL = PlantNeeds(leaf_number=LeafNumber(origin="invented", standing_low=3, standing_high=6))


@pytest.mark.parametrize(("standing", "word"), [(2, "fewer"), (3, "usual"), (6, "usual"), (7, "more")])
def test_standing_against_usual(standing, word):
    found = measured(Case(date=on(0)), {"leaves_standing": standing}, USUAL)
    assert found["standing_against_usual"].value == word


def test_a_late_count_goes_before_the_answer_and_an_old_one_after_it():
    case = case_of([(1, 0)], present=5)
    assert measured(case, {"leaves_standing": 9})["standing_leaves"].value == 6
    old = case.model_copy(update={"date": on(60)})
    assert measured(old, {"leaves_standing": 9})["standing_leaves"].value == 9
    assert "standing_leaves" not in measured(old)


def test_single_leaves_are_counted_last():
    leaves = (Leaf(), Leaf(opened=on(0)), Leaf(opened=on(0), lost=on(5)))
    assert measured(Case(date=on(9), leaves=leaves))["standing_leaves"].value == 2


def test_share_lost_in_thirty_days():
    found = measured(case_of([(0, 0)] * 5 + [(0, 2), (0, 0), (1, 1), (0, 0)], present=6))
    share = found["lost_share_30d_percent"]
    assert share.value == pytest.approx(100 * 3 / 7)  # 6 stood and 1 opened
    assert share.remark == "3 of 7 leaves in 28 days"
    assert share.low < share.value < share.high


def test_a_longer_stretch_is_scaled_down_and_a_shorter_never_up():
    assert measured(case_of([(0, 4)], present=8, every=60))["lost_share_30d_percent"].value == 25
    assert measured(case_of([(0, 4)], present=8, every=7))["lost_share_30d_percent"].value == 50
