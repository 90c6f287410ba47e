"""Every demo story gets a plan that a grower can follow, and that never changes two things at once unseen."""

import datetime as dt
from itertools import pairwise

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import plan_for
from diagnose.plan.dates import BETWEEN_CHANGES
from diagnose.ranking import PROBABLE
from diagnose.rulebase.logic import truth

CASES = sorted(locations.demo_cases().glob("*.toml"))


@pytest.fixture(scope="module")
def planned(diagnostician):
    plans = {}

    def of(path):
        if path not in plans:
            diagnosis = diagnostician.diagnose(read_case(path)[0])
            plans[path] = diagnosis, plan_for(diagnosis)
        return plans[path]

    return of


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_story_gets_a_plan_for_its_probable_causes(planned, path):
    diagnosis, plan = planned(path)
    ranking = diagnosis.ranking
    expected = {
        r.id for r in ranking.causes if r.rank == 1 or r.id in ranking.close or r.probability >= PROBABLE
    }
    assert {cause.id for cause in plan.causes} == expected
    assert plan.date == diagnosis.case.date
    assert plan.steps
    assert any(step.date == plan.date for step in plan.steps)
    assert plan.looks


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_each_step_is_given_once_and_only_where_its_condition_is_known_true(planned, path):
    diagnosis, plan = planned(path)
    findings = {
        diagnosis.base.rules[f.rule].gives for f in diagnosis.firings if f.rule in diagnosis.base.rules
    }
    ids = (
        [step.id for step in plan.steps] + [held.id for held in plan.held] + [one.id for one in plan.unasked]
    )
    assert len(ids) == len(set(ids))
    for step in plan.steps:
        when = diagnosis.base.advice[step.id].when
        assert when is None or truth(when, diagnosis.gathered.values, findings) == "true", step.id
    for one in plan.unasked:
        assert one.questions
        assert not any(question in diagnosis.facts for question in one.questions)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_dates_only_go_forward(planned, path):
    _, plan = planned(path)
    dates = [step.date for step in plan.steps]
    assert dates == sorted(dates)
    assert dates[0] == plan.date
    assert all(step.look_again is None or step.look_again > step.date for step in plan.steps)
    assert [look.date for look in plan.looks] == sorted({s.look_again for s in plan.steps if s.look_again})
    for schedule in plan.schedules:
        rows = [row.date for row in schedule.rows if row.date]
        assert rows == sorted(rows)
        assert all(date >= plan.date for date in rows)
        assert schedule.origin


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_one_change_at_a_time(planned, path):
    _, plan = planned(path)
    changes = [step for step in plan.steps if step.kind == "change"]
    for earlier, later in pairwise(sorted(changes, key=lambda step: (step.changes, step.date))):
        if earlier.changes == later.changes and not (
            earlier.changes == "roots" and earlier.date == later.date
        ):
            assert later.date >= (earlier.look_again or earlier.date + BETWEEN_CHANGES), (
                earlier.id,
                later.id,
            )
    in_turn = sorted({step.date for step in changes if step.pace == "in_turn"})
    assert all(later - earlier >= BETWEEN_CHANGES for earlier, later in pairwise(in_turn))
    assert all(date > plan.date for date in in_turn)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_cautions_of_plant_and_steps_are_told(planned, path):
    diagnosis, plan = planned(path)
    told = {caution.id: caution for caution in plan.cautions}
    plant = diagnosis.base.plants.get(diagnosis.case.plant.profile or "")
    assert set(told) == {one for step in plan.steps for one in step.cautions} | set(
        plant.caution if plant else ()
    )
    for step in plan.steps:
        assert all(step.text in told[one].applies_to for one in step.cautions)


def test_rot_is_treated_before_the_light_is_changed(planned):
    _, plan = planned(locations.demo_cases() / "dim_and_waterlogged.toml")
    assert plan.step("repot_airy").date == plan.step("trim_rotten_roots").date == plan.date
    assert plan.step("add_lamp").date >= plan.date + BETWEEN_CHANGES


def test_a_lamp_goes_before_a_move_where_the_window_gives_too_little(planned):
    _, plan = planned(locations.demo_cases() / "dim_and_waterlogged.toml")
    assert plan.light.window_is_too_weak
    assert plan.step("add_lamp").date < plan.step("move_closer_in_steps").date


def test_what_was_looked_at_already_is_not_asked_again(planned):
    diagnosis, plan = planned(locations.demo_cases() / "soggy_after_the_big_pot.toml")
    assert "roots_look" in diagnosis.facts
    assert plan.step("look_at_roots") is None


def test_a_healthy_turnover_is_left_alone(planned):
    _, plan = planned(locations.demo_cases() / "turnover_on_the_bright_shelf.toml")
    assert plan.step("leave_it_be").date == plan.date
    waits_until = plan.date + dt.timedelta(days=28)
    assert all(
        step.pace == "beside" or step.date >= waits_until for step in plan.steps if step.kind == "change"
    )
