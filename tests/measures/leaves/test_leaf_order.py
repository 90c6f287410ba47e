"""Oldest first, or not."""

import pytest

from diagnose.case import Case, Leaf
from diagnose.measures.leaves.order import losses_of_leaves
from leaf_cases import case_of, measured, on


def test_three_oldest_of_five_leaves_are_beyond_chance():
    found = measured(case_of([(1, 1), (1, 1), (1, 1)], which="oldest"))
    assert found["oldest_share_percent"].value == 100
    assert found["oldest_first"].value == "yes"
    assert "p = 0.008" in found["oldest_first"].remark  # one in 5 x 5 x 5


def test_one_oldest_of_five_could_be_chance():
    found = measured(case_of([(1, 1)], which="oldest"))
    assert found["oldest_share_percent"].value == 100
    assert "oldest_first" not in found


def test_many_losses_elsewhere_are_not_oldest_first():
    found = measured(case_of([(1, 1)] * 6, which="newest"))
    assert found["oldest_first"].value == "no"
    assert found["oldest_share_percent"].value == 0


def test_two_lost_at_once_must_both_be_the_oldest():
    found = measured(case_of([(0, 2)], which="oldest"))
    assert "oldest_first" not in found  # one in (5 over 2) = 10
    assert measured(case_of([(2, 2), (0, 2)], which="oldest"))["oldest_first"].value == "yes"


def test_unknown_which_leaf_is_no_evidence():
    assert not {"oldest_first", "oldest_share_percent"} & set(measured(case_of([(1, 1)] * 9)))


def test_single_leaves_are_judged_among_those_then_standing():
    leaves = (
        Leaf(opened=on(0), lost=on(50)),
        Leaf(opened=on(10)),
        Leaf(opened=on(20), lost=on(60)),
        Leaf(opened=on(55)),
    )
    first, second = losses_of_leaves(leaves)
    assert (first.oldest, first.chance) == (True, pytest.approx(1 / 3))
    assert (second.oldest, second.chance) == (False, pytest.approx(1 / 3))


def test_a_leaf_of_unknown_age_among_them_makes_the_order_unknown():
    leaves = (Leaf(), Leaf(opened=on(0), lost=on(50)))
    assert losses_of_leaves(leaves) == ()
    assert "oldest_first" not in measured(Case(date=on(60), leaves=leaves))
