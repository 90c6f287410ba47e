"""Leaf life, from single leaves and from counts."""

import pytest

from diagnose.case import Case, Leaf
from diagnose.measures.leaves.consistency import cleaned_history
from diagnose.measures.leaves.lifespan import lives_of_counts
from diagnose.measures.needs import LeafLife, PlantNeeds
from leaf_cases import case_of, measured, on


def test_leaves_still_standing_are_counted_as_such():
    leaves = tuple(Leaf(opened=on(n), lost=on(n + life)) for n, life in ((0, 60), (20, 70), (40, 80)))
    standing = tuple(Leaf(opened=on(60 + n)) for n in range(3))
    lost_only = measured(Case(date=on(160), leaves=leaves))
    assert lost_only["leaf_life_d"].value == 70
    both = measured(Case(date=on(160), leaves=leaves + standing))
    assert both["leaf_life_d"].value == 80  # three that reached 98 days without falling pull the median up
    assert both["leaf_life_d"].remark == "3 lost and 3 standing leaves: interval wide"


def test_no_life_while_more_than_half_stand():
    leaves = (Leaf(opened=on(0), lost=on(30)), *(Leaf(opened=on(0)) for _ in range(5)))
    assert "leaf_life_d" not in measured(Case(date=on(100), leaves=leaves))


def test_counts_give_a_life_only_if_the_oldest_go_first():
    steps = [(1, 1)] * 16
    assert measured(case_of(steps, every=21, which="oldest"))["leaf_life_d"].value == 105  # 5 standing x 21 d
    assert "leaf_life_d" not in measured(case_of(steps, every=21))
    assert "leaf_life_d" not in measured(case_of(steps, every=21, which="newest"))
    told = measured(case_of(steps, every=21), {"which_leaves": "oldest"})
    assert told["leaf_life_d"].value == 105
    assert told["leaf_life_d"].used == ("leaf_history", "which_leaves")


def test_an_unknown_stretch_ends_the_following_of_leaves():
    case = case_of([(1, 0), (1, 0), (0, 0)], present=0, every=10)
    rows = list(case.leaf_history)
    rows[3] = rows[3].model_copy(update={"present": 7, "new": 1, "lost": 1})
    lives = lives_of_counts(cleaned_history(case.model_copy(update={"leaf_history": tuple(rows)})))
    assert [(life.days, life.lost) for life in lives] == [(15, False), (5, False)]


def test_expected_leaves_from_the_usual_life_of_the_kind():
    needs = PlantNeeds(leaf_life=LeafLife(origin="invented", life_low_d=60, life_high_d=120))
    found = measured(case_of([(1, 1)] * 6, every=15), needs=needs)
    expected = found["expected_standing_leaves"]
    assert expected.value == pytest.approx(90 / 15)
    # 60 and 120 days alone would give 4 and 8; the limits of the rate come on top.
    assert expected.low < 4
    assert expected.high > 8
    assert "plant" in expected.used
