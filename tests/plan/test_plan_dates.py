"""Dates of steps, for any advice at all: looks first, one change at a time, nothing touched twice unseen."""

import datetime as dt
from itertools import pairwise
from types import SimpleNamespace

from hypothesis import given
from hypothesis import strategies as st

from diagnose.plan.choose import Chosen
from diagnose.plan.dates import BETWEEN_CHANGES, LOOKS_A_DAY, dated, looks_again
from diagnose.rulebase.model import Advice

TODAY = dt.date(2026, 3, 1)
BASE = SimpleNamespace(is_house=lambda table, entry: False)

advices = st.builds(
    Advice,
    id=st.sampled_from([f"step_{letter}" for letter in "abcdefghij"]),
    text=st.just("Do it."),
    how=st.just("Just so."),
    effort=st.sampled_from(["think", "look", "touch", "unpot", "wait"]),
    changes=st.sampled_from(["nothing", "light", "water", "roots", "air"]),
    pace=st.sampled_from(["in_turn", "at_once", "beside"]),
    order=st.integers(1, 400),
    look_again_days=st.none() | st.integers(1, 90),
    origin=st.just("common practice"),
)
lists = st.lists(advices, max_size=10, unique_by=lambda advice: advice.id).map(
    lambda found: [Chosen(advice, ("a cause",)) for advice in sorted(found, key=lambda a: (a.order, a.id))]
)


@given(lists)
def test_every_step_has_a_date_and_dates_go_forward(chosen):
    steps = dated(chosen, TODAY, BASE)
    assert {step.id for step in steps} == {one.advice.id for one in chosen}
    assert [step.date for step in steps] == sorted(step.date for step in steps)
    assert all(step.date >= TODAY for step in steps)
    assert all(step.date == TODAY for step in steps if step.kind in ("mind", "wait"))
    assert all(
        step.date > TODAY
        for step in steps
        if step.kind == "change" and step.pace == "in_turn" and step.changes != "roots"
    )


@given(lists)
def test_looks_are_spread_over_days_before_any_change_in_turn(chosen):
    steps = dated(chosen, TODAY, BASE)
    looks = [step.date for step in steps if step.kind == "look"]
    assert all(looks.count(date) <= LOOKS_A_DAY for date in looks)
    assert sorted(set(looks)) == [TODAY + dt.timedelta(days=day) for day in range(len(set(looks)))]
    in_turn = [s.date for s in steps if s.kind == "change" and s.pace == "in_turn" and s.changes != "roots"]
    assert all(date > max(looks, default=TODAY) for date in in_turn)


@given(lists)
def test_nothing_is_changed_again_before_it_was_looked_at(chosen):
    steps = [step for step in dated(chosen, TODAY, BASE) if step.kind == "change" and step.changes != "roots"]
    for earlier, later in pairwise(sorted(steps, key=lambda step: (step.changes, step.date))):
        if earlier.changes == later.changes:
            assert later.date >= (earlier.look_again or earlier.date + BETWEEN_CHANGES)


@given(lists)
def test_changes_in_turn_keep_their_distance(chosen):
    steps = [step for step in dated(chosen, TODAY, BASE) if step.kind == "change" and step.changes != "roots"]
    in_turn = sorted(step.date for step in steps if step.pace == "in_turn")
    assert all(later - earlier >= BETWEEN_CHANGES for earlier, later in pairwise(in_turn))
    urgent = [step.date for step in steps if step.pace == "at_once"]
    assert all(date >= max(urgent, default=date) + BETWEEN_CHANGES for date in in_turn if urgent)


@given(lists)
def test_the_plant_is_unpotted_once(chosen):
    at_roots = {step.date for step in dated(chosen, TODAY, BASE) if step.changes == "roots"}
    assert len(at_roots) <= 1


@given(lists)
def test_every_look_again_is_told_once(chosen):
    steps = dated(chosen, TODAY, BASE)
    looks = looks_again(steps)
    told = [(look.date, step_id) for look in looks for step_id, _, _ in look.steps]
    assert sorted(told) == sorted((step.look_again, step.id) for step in steps if step.look_again)
    assert [look.date for look in looks] == sorted({look.date for look in looks})


def test_waiting_puts_changes_off_until_its_look_again():
    waiting = Advice(
        id="wait_and_see", text="Wait.", how="Do nothing.", effort="wait", changes="nothing", order=30,
        look_again_days=28, origin="common practice",
    )  # fmt: skip
    move = Advice(
        id="move_it",
        text="Move it.",
        how="Nearer.",
        effort="touch",
        changes="light",
        order=106,
        origin="common practice",
    )
    rescue = move.model_copy(update={"id": "rescue_it", "changes": "water", "pace": "at_once"})
    steps = {s.id: s.date for s in dated([Chosen(a, ()) for a in (waiting, move, rescue)], TODAY, BASE)}
    assert steps["move_it"] == TODAY + dt.timedelta(days=28)
    assert steps["rescue_it"] == TODAY


def test_the_first_change_comes_the_day_after_the_looks():
    move = Advice(
        id="move_it",
        text="Move it.",
        how="Nearer.",
        effort="touch",
        changes="light",
        order=106,
        origin="common practice",
    )
    assert dated([Chosen(move, ())], TODAY, BASE)[0].date == TODAY + dt.timedelta(days=1)
