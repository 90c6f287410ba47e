"""What contradicts itself is told in a clear sentence and left out; the rest is used."""

import pytest

from diagnose.case import Case, Leaf, LeafCount
from diagnose.measures.leaves.consistency import cleaned_history, cleaned_leaves, inconsistencies
from leaf_cases import case_of, measured, on

END = on(100)


def case_with(*rows, date=END, leaves=()):
    return Case(date=date, leaf_history=tuple(LeafCount(**row) for row in rows), leaves=tuple(leaves))


def row(day, present, new=None, lost=None):
    return {"date": on(day), "present": present, "new": new, "lost": lost}


def test_a_sound_history_has_no_faults():
    assert inconsistencies(case_of([(1, 0), (0, 1), (1, 1)])) == ()


def test_numbers_that_do_not_add_up_are_left_out_and_the_rest_is_used():
    case = case_with(row(0, 5), row(7, 6, 1, 0), row(14, 9, 1, 1), row(21, 9, 1, 1), date=on(21))
    (fault,) = inconsistencies(case)
    assert fault.sentence() == (
        "leaf_history row 3: found 6 leaves on 2024-01-08, 1 new, 1 lost, and 9 leaves on 2024-01-15, "
        "expected 6 leaves on 2024-01-15; correct one of these numbers; "
        "until then what opened and fell between the two dates is left out."
    )
    stretches = cleaned_history(case).stretches
    assert [(s.new, s.lost) for s in stretches] == [(1, 0), (None, None), (1, 1)]
    assert [s.present_after for s in stretches] == [6, 9, 9]
    assert measured(case)["lost_leaves_per_30d"].value == pytest.approx(30 / 14)


@pytest.mark.parametrize(
    ("after", "expected"),
    [
        (row(7, 9, new=1), "at most 7 leaves"),
        (row(7, 2, lost=1), "at least 5 leaves"),
        (row(7, 0, new=0, lost=8), "no more leaves lost than there were"),
    ],
)
def test_impossible_counts_are_found_with_one_number_missing(after, expected):
    (fault,) = inconsistencies(case_with(row(0, 6), after))
    assert expected in fault.sentence()


def test_a_missing_number_is_derived_from_the_others():
    history = cleaned_history(case_with(row(0, 6), row(7, 7, new=2), row(14, 5, lost=3), row(21, 5)))
    assert [(s.new, s.lost) for s in history.stretches] == [(2, 1), (1, 3), (None, None)]


def test_a_count_after_the_date_of_the_case_is_left_out():
    case = case_with(row(0, 6), row(7, 6, 0, 0), row(90, 6, 0, 0), date=on(30))
    (fault,) = inconsistencies(case)
    assert "row 3" in fault.sentence()
    assert "none after the case's date, 2024-01-31" in fault.sentence()
    assert len(cleaned_history(case).stretches) == 1


def test_a_date_in_another_age_is_a_slip_of_the_pen():
    slip = LeafCount(date="0204-01-08", present=6, new=0, lost=0)
    case = case_with(row(0, 6), row(7, 6, 0, 0), leaves=[Leaf(opened="0204-01-08")])
    case = case.model_copy(update={"leaf_history": (slip, *case.leaf_history)})
    count, leaf = inconsistencies(case)
    assert (
        "found a count on 0204-01-08, expected one of the 50 years up to the case's date" in count.sentence()
    )
    assert "found a date over 50 years before 2024-04-10" in leaf.sentence()
    assert len(cleaned_history(case).stretches) == 1
    assert cleaned_leaves(case) == ()


def test_rows_out_of_order_are_told_and_read_by_date():
    case = case_with(row(7, 7, 1, 0), row(0, 6))
    (fault,) = inconsistencies(case)
    assert "found 2024-01-01 after 2024-01-08, expected counts in order of date" in fault.sentence()
    assert [(s.new, s.lost) for s in cleaned_history(case).stretches] == [(1, 0)]


def test_the_same_count_twice_is_used_once():
    case = case_with(row(0, 6), row(7, 7, 1, 0), row(7, 7, 1, 0), row(14, 7, 0, 0))
    (fault,) = inconsistencies(case)
    assert "rows 2 and 3" in fault.sentence()
    assert [(s.new, s.lost) for s in cleaned_history(case).stretches] == [(1, 0), (0, 0)]


def test_two_counts_of_a_day_that_differ_make_both_neighbours_unknown():
    case = case_with(row(0, 6), row(7, 7, 1, 0), row(7, 5, 0, 1), row(14, 7, 0, 0), row(21, 8, 1, 0))
    (fault,) = inconsistencies(case)
    assert "keep the right one" in fault.sentence()
    assert [(s.new, s.lost) for s in cleaned_history(case).stretches] == [(None, None), (None, None), (1, 0)]


def test_two_counts_of_a_day_that_differ_only_in_losses_keep_the_leaves_present():
    case = case_with(row(0, 6), row(7, 6, 1, 1), row(7, 6, 0, 0), row(14, 7, 1, 0))
    assert len(inconsistencies(case)) == 1
    stretches = cleaned_history(case).stretches
    assert [(s.new, s.lost, s.present_after) for s in stretches] == [(None, None, 6), (1, 0, 7)]


@pytest.mark.parametrize(
    ("leaf", "found", "kept"),
    [
        (Leaf(opened=on(9), lost=on(2)), "lost on 2024-01-03 that opened on 2024-01-10", ()),
        (Leaf(opened=on(200)), "opened on 2024-07-19", ()),
        (Leaf(opened=on(9), lost=on(200)), "lost on 2024-07-19", (Leaf(opened=on(9)),)),
    ],
)
def test_single_leaves_that_make_no_sense(leaf, found, kept):
    case = case_with(leaves=[leaf])
    (fault,) = inconsistencies(case)
    assert found in fault.sentence()
    assert cleaned_leaves(case) == kept
