"""Whose plan asks to look again, and what changed since."""

import datetime as dt

import pytest

from diagnose.case import Case, LeafCount
from diagnose.collection.followup import compare, due
from diagnose.journal.records import CaseRecord, FollowUp, PlanRecord, RankingRecord, StepRecord, StoredCause
from diagnose.ranking import RankedCause, Ranking


def step(number, day, look):
    return StepRecord(number, 1, number, f"advice_{number}", "Do it.", day, look, "fewer losses")


@pytest.fixture
def plan(day):
    looks = (day - dt.timedelta(days=1), day + dt.timedelta(days=20), None)
    steps = tuple(step(n, day - dt.timedelta(days=15), look) for n, look in enumerate(looks))
    return PlanRecord(1, 7, 1, day - dt.timedelta(days=15), steps)


def waiting(plant, plan, day, *, settled=False, **fields):
    from dataclasses import replace

    case = CaseRecord(7, 1, plan.date, settled)
    return due([plant(1)], [case], [replace(plan, **fields)], day)


def test_a_plan_is_due_from_its_day_on_with_the_steps_of_that_day(plant, plan, day):
    (one,) = waiting(plant, plan, day)
    assert one.look_on == day - dt.timedelta(days=1)
    assert [s.position for s in one.steps] == [0]
    assert waiting(plant, plan, day - dt.timedelta(days=2)) == ()


def test_once_answered_it_is_due_again_at_the_next_day(plant, plan, day):
    seen = (FollowUp(1, 1, day, "yes"),)
    assert waiting(plant, plan, day, follow_ups=seen) == ()
    (one,) = waiting(plant, plan, day + dt.timedelta(days=20), follow_ups=seen)
    assert [s.position for s in one.steps] == [1]


def test_a_step_is_answered_for_itself(plant, plan, day):
    from dataclasses import replace

    look = day - dt.timedelta(days=1)
    steps = tuple(replace(one, look_again_on=look) for one in plan.steps)
    seen = (FollowUp(1, 1, day, "yes", step_id=steps[1].id),)
    (one,) = waiting(plant, plan, day, steps=steps, follow_ups=seen)
    assert [s.position for s in one.steps] == [0, 2]


def test_what_was_done_late_is_judged_as_much_later(plant, plan, day):
    from dataclasses import replace

    first, *others = plan.steps
    late = replace(first, done_on=first.due_on + dt.timedelta(days=5))
    assert waiting(plant, plan, day, steps=(late, *others)) == ()
    (one,) = waiting(plant, plan, day + dt.timedelta(days=4), steps=(late, *others))
    assert (one.look_on, one.steps) == (day + dt.timedelta(days=4), (late,))


def test_settled_cases_and_older_plans_are_not_due(plant, plan, day):
    from dataclasses import replace

    assert waiting(plant, plan, day, settled=True) == ()
    newer = replace(plan, id=2, steps=())
    assert due([plant(1)], [CaseRecord(7, 1, plan.date, False)], [plan, newer], day) == ()


def ranked(*causes):
    made = [RankedCause(c, c, n, 0.0, p, (), False) for n, (c, p) in enumerate(causes, start=1)]
    return Ranking(tuple(made), "clear", ())


def test_losses_since_are_compared_with_those_before(day):
    start = day - dt.timedelta(days=140)
    rows = [
        LeafCount(
            date=start + dt.timedelta(days=14 * n),
            present=8,
            new=(2 if n <= 5 else 0),
            lost=(2 if n <= 5 else 0),
        )
        for n in range(11)
    ]
    then = RankingRecord(
        1, 7, day, "x", Case(date=day), (StoredCause("drought", 0, 0.7), StoredCause("pests", 0, 0.2))
    )
    found = compare(
        then, ranked(("pests", 0.6), ("drought", 0.3)), Case(date=day, leaf_history=rows), rows[5].date
    )
    assert (found.lost_before, found.days_before, found.lost_since, found.days_since) == (10, 70, 0, 70)
    assert found.ratio.ratio == 0
    assert found.ratio.p < 0.05
    assert (found.first_then, found.first_now, found.still_first) == ("drought", "pests", False)
    assert (found.probability_then, found.probability_now) == (0.7, 0.3)


def test_without_counts_nothing_is_compared(day):
    then = RankingRecord(1, 7, day, "x", Case(date=day), (StoredCause("drought", 0, 0.7),))
    assert compare(then, ranked(("drought", 0.9)), Case(date=day), day).ratio is None
