"""Who stands out, what they share, and what a plant's case is told of it."""

import datetime as dt
import random

from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case
from diagnose.collection.neighbours import NEIGHBOURS, TOGETHER, facts_for, informed
from diagnose.collection.overview import overview
from diagnose.collection.shared import LOOK_BACK_D, shared_traits, traits
from diagnose.collection.standout import standout
from diagnose.journal.records import EventRecord


def a_collection(plant, totals, day, hurt=range(8), size=60):
    made = [
        plant(n, place="porch" if n < 12 else f"room {n % 5}", kind="alocasia" if n % 2 else "monstera")
        for n in range(size)
    ]
    told = [totals(n, 12 if n in hurt else 3, 12) for n in range(size)]
    return overview(made, told, day)


def test_the_hurt_plants_are_named_and_their_place(plant, totals, day):
    found = standout(a_collection(plant, totals, day), [], day)
    assert [one.row.plant.id for one in found.rising] == list(range(8)) or {
        one.row.plant.id for one in found.rising
    } == set(range(8))
    assert found.shared[0].names == ("at porch",)
    assert (found.shared[0].raised_holders, found.shared[0].holders) == (8, 12)
    assert found.shared[0].plants == tuple(range(8))
    assert len(found.shared) == 1
    assert found.hit == frozenset(range(8))


def test_a_quiet_collection_stands_out_in_nothing(plant, totals, day):
    found = standout(a_collection(plant, totals, day, hurt=()), [], day)
    assert (found.rising, found.shared) == ((), ())
    assert len(found.tested) == 60


def test_false_alarms_are_as_rare_as_promised(plant, totals, day):
    """Nothing has happened: in at most about 5 % of collections is anything named (exact tests are conservative)."""
    pick, alarms = random.Random(3), 0
    for _ in range(200):
        told = []
        for n in range(40):
            lost = sum(
                pick.random() < 0.2 for _ in range(20)
            )  # each of 20 losses is recent with chance 450 / 2250
            told.append(totals(n, lost, 20 - lost))
        found = standout(overview([plant(n, place=f"room {n % 4}") for n in range(40)], told, day), [], day)
        alarms += bool(found.rising)
    assert alarms <= 16  # 200 x 5 % = 10; more than 16 has a chance of about 2 %


def test_events_are_traits_by_week_and_by_what_was_given(plant, day):
    monday = day - dt.timedelta(days=day.weekday())
    events = [
        EventRecord(1, 1, monday, "moved", ""),
        EventRecord(2, 2, monday + dt.timedelta(days=6), "moved", ""),
        EventRecord(3, 3, day - dt.timedelta(days=20), "fed", "batch K"),
        EventRecord(4, 4, day - dt.timedelta(days=80), "fed", "batch K"),
        EventRecord(5, 5, day - dt.timedelta(days=LOOK_BACK_D + 1), "fed", "batch K"),
        EventRecord(6, 6, day + dt.timedelta(days=1), "fed", "batch K"),
    ]
    found = traits([plant(n) for n in range(7)], events, day + dt.timedelta(days=6))
    assert found[f"moved in the week of {monday}"] == {1, 2}
    assert {3, 4} <= found["fed with batch K"]
    assert 5 not in found["fed with batch K"]


def test_traits_of_the_very_same_plants_are_told_as_one():
    having = {"at porch": {1, 2, 3, 4}, "moved in the week of x": {1, 2, 3, 4}, "in bark": {1, 9}}
    (found,) = shared_traits(having, {1, 2, 3, 4}, range(1, 41))
    assert found.names == ("at porch", "moved in the week of x")


def test_what_all_or_only_one_has_is_no_trait():
    assert shared_traits({"all": range(20), "one": {3}}, {3}, range(20)) == ()


@given(
    st.sets(st.integers(0, 30)), st.dictionaries(st.text(max_size=3), st.sets(st.integers(0, 40)), max_size=5)
)
def test_shared_traits_never_name_others(raised, having):
    for found in shared_traits(having, raised & set(range(31)), range(31)):
        assert set(found.plants) <= raised
        assert found.raised_holders <= found.holders <= found.tested
        assert found.p <= found.p_adjusted <= 0.05


def test_a_plants_case_is_told_of_its_neighbours(plant, totals, day):
    rows = a_collection(plant, totals, day)
    found = standout(rows, [], day)
    assert facts_for(rows[0], rows, found) == {NEIGHBOURS: "several_kinds", TOGETHER: True}
    assert facts_for(rows[11], rows, found) == {NEIGHBOURS: "several_kinds", TOGETHER: False}
    assert facts_for(rows[20], rows, found) == {NEIGHBOURS: "none", TOGETHER: False}


def test_neighbours_of_the_same_kind_alone_are_told_as_such(plant, totals, day):
    made = [plant(n, place="porch" if n < 4 else "hall", kind="alocasia") for n in range(30)]
    rows = overview(made, [totals(n, 14 if n < 4 else 3, 12) for n in range(30)], day)
    assert facts_for(rows[0], rows, standout(rows, [], day))[NEIGHBOURS] == "same_kind"


def test_nothing_is_told_of_neighbours_that_were_never_counted(plant, totals, day):
    rows = overview([plant(1, place="porch"), plant(2, place="porch"), plant(3)], [totals(1, 3, 12)], day)
    found = standout(rows, [], day)
    assert NEIGHBOURS not in facts_for(rows[0], rows, found)
    assert facts_for(rows[2], rows, found) == {}


def test_rules_use_what_the_journal_tells_and_the_grower_comes_first(diagnostician, day):
    asked = frozenset(diagnostician.base.questions)
    case = informed(Case(date=day), {NEIGHBOURS: "several_kinds", "no_such_question": True}, asked)
    diagnosis = diagnostician.diagnose(case)
    fact = diagnosis.facts[NEIGHBOURS]
    assert (fact.value, fact.source) == ("several_kinds", "journal")
    assert diagnosis.problems == ()
    assert any(NEIGHBOURS in line.facts for cause in diagnosis.ranking.causes for line in cause.lines)
    own = diagnostician.diagnose(case.model_copy(update={"answers": {NEIGHBOURS: "none"}}))
    assert (own.facts[NEIGHBOURS].value, own.facts[NEIGHBOURS].source) == ("none", "answer")
