"""Each plant at a glance says what the leaf measures say, and what is due."""

import datetime as dt
import math
import random

import pytest

from diagnose.collection import choose
from diagnose.collection.overview import COUNT_EVERY_D, overview
from diagnose.journal import counts, open_journal, plants
from diagnose.journal.records import LeafTotals
from diagnose.measures.leaves import measure
from diagnose.measures.leaves.exact import rate_ratio
from diagnose.measures.measure import Given
from diagnose.problems import BadInputError
from simulator import STEADY_CHANCE, Life, counted, grow
from trials import CHANGED


def test_losses_are_tested_as_the_exact_test_does(plant, totals, day):
    for now, before in ((9, 4), (0, 12), (3, 12), (1, 0), (20, 81)):
        (row,) = overview([plant(1)], [totals(1, now, before)], day)
        exact = rate_ratio(now, 450.0, before, 1800.0)
        assert row.p == pytest.approx(exact.p)
        assert row.ratio == pytest.approx(exact.ratio)
        assert row.losses in ("rising", "falling") if exact.p <= 0.05 else row.losses in ("steady", "too few")


@pytest.mark.parametrize("life", [STEADY_CHANCE, *CHANGED.values()])
def test_it_says_what_the_measures_say_of_a_simulated_plant(life, tmp_path):
    with open_journal(tmp_path / "j.sqlite") as book:
        said, measured = [], []
        for seed in range(12):
            case = counted(grow(life, random.Random(seed)))
            kept = plants.add_plant(book, f"Plant {seed}")
            counts.add_counts(book, {kept.id: case.leaf_history})
            found = {m.name: m.value for m in measure(Given(case, {}))}
            measured.append((found.get("loss_trend", "too few"), found.get("standing_leaves")))
        rows = overview(
            sorted(plants.all_plants(book), key=lambda p: p.id), counts.leaf_totals(book), case.date
        )
        said = [(row.losses, row.leaves) for row in rows]
    assert said == measured


def test_a_plant_never_counted_is_due_and_nothing_is_said_of_it(plant, day):
    (row,) = overview([plant(1)], [], day)
    assert (row.leaves, row.change, row.losses, row.p, row.days_since_count) == (
        None,
        None,
        "no recent count",
        None,
        None,
    )
    assert row.due == ("count",)


def test_an_old_count_says_nothing_of_now(plant, totals, day):
    (row,) = overview([plant(1)], [totals(1, 9, 4, days_ago=91)], day)
    assert (row.losses, row.p_rise, row.lost_per_30d) == ("no recent count", None, None)


def test_counts_are_due_after_a_fortnight(plant, totals, day):
    rows = overview(
        [plant(1), plant(2)], [totals(n, days_ago=COUNT_EVERY_D - 2 + n) for n in (1, 2)], day, (), {1}
    )
    assert [row.due for row in rows] == [("look again",), ("count",)]


def test_none_lost_before_is_an_endless_ratio(plant, totals, day):
    (row,) = overview([plant(1)], [totals(1, 6, 0)], day)
    assert math.isinf(row.ratio)
    assert row.losses == "rising"


@pytest.fixture
def rows(plant, totals, day):
    made = [
        plant(1, name="Kettle", place="east sill", kind="alocasia", note="from the fair"),
        plant(2, name="lantern", place="hall", kind="monstera"),
        plant(3, name="Anvil", place="East sill"),
    ]
    told = [totals(1, 9, 4, leaves=3), totals(2, 1, 4, leaves=12, days_ago=40), LeafTotals(3)]
    return overview(made, told, day, {2})


def names(rows):
    return [row.plant.name for row in rows]


def test_sorting(rows):
    assert names(choose.sort(rows, "name")) == ["Anvil", "Kettle", "lantern"]
    assert names(choose.sort(rows, "-name")) == ["lantern", "Kettle", "Anvil"]
    assert names(choose.sort(rows, "leaves")) == ["Kettle", "lantern", "Anvil"]  # without a value: last
    assert names(choose.sort(rows, "-leaves")) == ["lantern", "Kettle", "Anvil"]
    assert names(choose.sort(rows, "ratio"))[0] == "Kettle"  # largest first
    assert all(len(choose.sort(rows, field)) == 3 for field in choose.FIELDS)


def test_filtering(rows):
    assert names(choose.where(rows, ["place=east sill"])) == ["Kettle", "Anvil"]
    assert names(choose.where(rows, ["losses=rising"])) == ["Kettle"]
    assert names(choose.where(rows, ["counted>20"])) == ["lantern"]
    assert names(choose.where(rows, ["leaves<=12", "place!=hall"])) == ["Kettle"]
    assert names(choose.where(rows, ["kind~sia"])) == ["Kettle"]
    assert names(choose.where(rows, ["case=open"])) == ["lantern"]
    assert names(choose.where(rows, ["due~count"])) == ["lantern", "Anvil"]


def test_searching(rows):
    assert names(choose.find(rows, "FAIR sill")) == ["Kettle"]
    assert names(choose.find(rows, "")) == ["Kettle", "lantern", "Anvil"]


@pytest.mark.parametrize("condition", ["losses", "loses=rising", "leaves>many", "=3"])
def test_what_cannot_be_read_is_one_sentence(rows, condition):
    with pytest.raises(BadInputError) as error:
        choose.where(rows, [condition])
    assert len(error.value.problems) == 1
    with pytest.raises(BadInputError):
        choose.sort(rows, "height")


def test_day_of_the_simulator_is_the_case_date():
    assert counted(grow(Life(days=70), random.Random(1))).date == dt.date(2021, 1, 1) + dt.timedelta(days=70)
