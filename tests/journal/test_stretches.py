"""The running totals kept in SQL say the same as the leaf measures computed from the counts themselves."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case, LeafCount
from diagnose.journal import counts, open_journal, plants
from diagnose.measures.leaves.consistency import cleaned_history
from diagnose.measures.leaves.history import tally
from diagnose.measures.leaves.rates import split_recent

FIRST = dt.date(2024, 1, 1)
a_count = st.builds(
    LeafCount,
    date=st.integers(0, 400).map(lambda day: FIRST + dt.timedelta(days=day)),
    present=st.integers(0, 9),
    new=st.none() | st.integers(0, 3),
    lost=st.none() | st.integers(0, 3),
)


@st.composite
def consistent(draw):
    """Counts of a plant that add up, some numbers not told."""
    present, day, rows = draw(st.integers(0, 9)), 0, []
    for _ in range(draw(st.integers(0, 30))):
        day += draw(st.integers(1, 40))
        lost, new = draw(st.integers(0, present)), draw(st.integers(0, 3))
        present += new - lost
        told = {"new": draw(st.sampled_from([new, None])), "lost": draw(st.sampled_from([lost, None]))}
        rows.append(LeafCount(date=FIRST + dt.timedelta(days=day), present=present, **told))
    return rows


def expected(rows):
    """The totals by way of the measures; a recount of a day replaces the one before."""
    held = sorted({row.date: row for row in rows}.values(), key=lambda row: row.date)
    history = cleaned_history(Case(date=dt.date(2025, 12, 31), leaf_history=held))
    known = tuple(s for s in history.stretches if s.lost is not None)
    return [
        (*tally(part, "lost"), tally(part, "new")[0], sum(s.leaf_days for s in part))
        for part in split_recent(known)
    ]


def found(book, plant_id):
    total = next(t for t in counts.leaf_totals(book) if t.plant_id == plant_id)
    return [
        (total.lost_earlier, total.days_earlier, total.new_earlier, pytest.approx(total.leaf_days_earlier)),
        (total.lost_recent, total.days_recent, total.new_recent, pytest.approx(total.leaf_days_recent)),
    ]


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    with open_journal(tmp_path_factory.mktemp("journal") / "j.sqlite") as journal:
        journal.db.execute(
            "PRAGMA synchronous = OFF"
        )  # hundreds of examples; what is on disk is tested elsewhere
        yield journal


@given(rows=st.lists(a_count, max_size=25) | consistent(), data=st.data())
def test_totals_equal_the_measures_in_any_order_of_entry(shared, rows, data):
    number = len(plants.all_plants(shared)) + 1
    plant = plants.add_plant(shared, f"Plant {number}")
    order = data.draw(st.permutations(rows))
    for row in order:
        counts.add_count(shared, plant.id, row)
    assert found(shared, plant.id) == expected(order)


@given(rows=st.lists(a_count, min_size=1, max_size=15, unique_by=lambda row: row.date), data=st.data())
def test_totals_follow_when_counts_are_withdrawn(shared, rows, data):
    plant = plants.add_plant(shared, f"Plant {len(plants.all_plants(shared)) + 1}")
    counts.add_counts(shared, {plant.id: rows})
    gone = data.draw(st.lists(st.sampled_from([row.date for row in rows]), unique=True))
    with shared.writing() as db:
        counts.withdraw_counts(db, plant.id, gone)
    left = [row for row in rows if row.date not in gone]
    assert found(shared, plant.id) == expected(left)
    assert list(counts.counts_of(shared, plant.id)) == sorted(left, key=lambda row: row.date)


def test_a_plant_never_counted_has_no_totals(book):
    plants.add_plant(book, "Anvil")
    (total,) = counts.leaf_totals(book)
    assert (total.counts, total.last_on, total.present, total.lost_recent) == (0, None, None, 0)


def test_what_stood_at_the_start_of_the_recent_part(book):
    plant = plants.add_plant(book, "Anvil")
    weeks = [LeafCount(date=FIRST + dt.timedelta(days=7 * n), present=20 - n // 4) for n in range(80)]
    counts.add_counts(book, {plant.id: [w.model_copy(update={"new": 0}) for w in weeks]})
    (total,) = counts.leaf_totals(book)
    assert total.present == weeks[-1].present
    assert total.present_before == next(
        w.present for w in reversed(weeks) if (weeks[-1].date - w.date).days > total.days_recent - 1
    )
    assert total.days_recent == 91  # 13 weeks whose middles lie in the last 90 days
