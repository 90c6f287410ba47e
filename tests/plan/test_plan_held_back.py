"""A step that would be wrong for another likely cause is held back, with the check that settles it."""

import dataclasses

import pytest

from diagnose.plan.choose import DOUBT, LIKELY, choose, only_looks, probable
from diagnose.ranking import PROBABLE, RankedCause, Ranking
from diagnose.report.plan_text import why_held

KNOWN = {"medium": "soil_mix", "plant_form": "corm"}


def ranking(base, verdict="clear", close=(), **probabilities):
    """Return a ranking with these probabilities; all other causes all but excluded."""
    chances = dict.fromkeys(base.causes, 0.001) | probabilities
    ordered = sorted(chances, key=lambda cause: -chances[cause])
    causes = tuple(
        RankedCause(cause, base.causes[cause].name, rank, 0.0, chances[cause], (), house=False)
        for rank, cause in enumerate(ordered, start=1)
    )
    return Ranking(causes, verdict, close)


def ids(parts):
    return {getattr(part, "id", None) or part.advice.id for part in parts}


def test_watering_more_is_held_while_rot_is_likely(base):
    choice = choose(base, KNOWN, (), ranking(base, drought=0.9, root_rot=0.4))
    held = next(held for held in choice.held if held.id == "water_at_top_dry")
    assert held.doubts == (("Rotting roots, mostly from staying wet", 0.4),)
    assert "roots" in held.until
    assert "40 %" in why_held(held)
    assert "water_at_top_dry" not in ids(choice.given)


def test_watering_more_is_given_once_rot_is_excluded(base):
    choice = choose(base, KNOWN, (), ranking(base, drought=0.9, root_rot=0.02))
    assert "water_at_top_dry" in ids(choice.given)


@pytest.mark.parametrize(("chance", "held"), [(DOUBT, True), (DOUBT - 0.001, False)])
def test_the_border_of_doubt(base, chance, held):
    choice = choose(base, KNOWN, (), ranking(base, drought=0.9, root_rot=chance))
    assert ("soak_root_ball" in ids(choice.held)) is held
    assert ("soak_root_ball" in ids(choice.given)) is not held


@pytest.mark.parametrize(("chance", "there"), [(PROBABLE, True), (PROBABLE - 0.001, False)])
def test_the_border_of_acting_on_a_cause(base, chance, there):
    causes = probable(ranking(base, energy_deficit=0.9, dry_air=chance))
    assert ("dry_air" in {cause.id for cause in causes}) is there


def test_a_cause_too_close_to_the_first_is_acted_on_however_improbable(base):
    causes = probable(ranking(base, close=("pests",), energy_deficit=0.3, pests=0.2))
    assert [cause.id for cause in causes] == ["energy_deficit", "pests"]


def test_a_step_of_two_causes_is_given_once_for_both(base):
    choice = choose(base, KNOWN, (), ranking(base, energy_deficit=0.9, natural_turnover=0.5))
    counted = [one for one in choice.given if one.advice.id == "count_leaves"]
    assert [one.causes for one in counted] == [
        ("Too little light to keep its leaves", "Natural turnover of leaves")
    ]


def test_waiting_is_held_while_another_cause_leads(base):
    choice = choose(base, KNOWN, (), ranking(base, energy_deficit=0.9, natural_turnover=0.5))
    held = next(held for held in choice.held if held.id == "leave_it_be")
    assert held.doubts == ()
    assert "natural turnover" in why_held(held)


def test_what_hangs_on_an_unknown_answer_is_not_given_but_named(base):
    choice = choose(base, {}, (), ranking(base, root_rot=0.9))
    unasked = {one.id: one.questions for one in choice.unasked}
    assert unasked["stop_watering_until_dry"] == ("medium",)
    assert "stop_watering_until_dry" not in ids(choice.given) | ids(choice.held)


def test_what_is_known_not_to_apply_is_left_out(base):
    choice = choose(base, KNOWN | {"medium": "water"}, (), ranking(base, root_rot=0.9))
    assert "stop_watering_until_dry" not in ids(choice.given) | ids(choice.held) | ids(choice.unasked)
    assert "change_water" in ids(choice.given)


@pytest.mark.parametrize("verdict", ["too_little", "none_likely"])
def test_nothing_is_changed_while_nothing_is_likely(base, verdict):
    unsure = ranking(base, verdict, root_rot=0.3)
    assert only_looks(unsure)
    choice = choose(base, KNOWN, (), unsure)
    assert choice.given
    assert all(one.advice.changes == "nothing" for one in choice.given)


def test_a_look_is_dropped_only_when_all_it_tells_is_known(base):
    unsure = ranking(base, root_rot=0.9)
    assert "check_drainage" in ids(choose(base, KNOWN | {"drainage": "free"}, (), unsure).given)
    both = KNOWN | {"drainage": "free", "standing_water": "no"}
    assert "check_drainage" not in ids(choose(base, both, (), unsure).given)


def test_every_built_in_step_says_what_it_changes(base):
    for advice in base.advice.values():
        assert advice.changes != "other", advice.id
        assert advice.changes == "nothing" or advice.order >= 100, advice.id
        assert not (advice.changes == "nothing" and advice.pace != "in_turn"), advice.id


def test_held_steps_carry_the_check_that_settles_them(base):
    risky = dict.fromkeys(base.causes, 0.5)
    choice = choose(base, KNOWN, (), ranking(base, **risky))
    assert len(choice.held) > 10
    for held in choice.held:
        assert held.until == base.advice[held.id].hold_until
        assert dataclasses.asdict(held)["doubts"]


@pytest.mark.parametrize(("chance", "pace"), [(LIKELY, "at_once"), (LIKELY - 0.01, "beside")])
def test_to_withhold_is_in_haste_only_for_a_likely_cause_or_the_first(base, chance, pace):
    def paces(found):
        return {one.advice.id: one.advice.pace for one in choose(base, KNOWN, (), found).given}

    assert paces(ranking(base, energy_deficit=0.9, root_rot=chance))["stop_watering_until_dry"] == pace
    assert paces(ranking(base, root_rot=chance))["stop_watering_until_dry"] == "at_once"


def test_a_plant_is_not_left_in_its_place_and_moved(base):
    moved = choose(base, KNOWN | {"light_change": "darker"}, (), ranking(base, acclimation=0.9))
    assert "step_down_light" in ids(moved.given)
    assert "keep_still" not in ids(moved.given) | ids(moved.held)
    left = choose(base, KNOWN | {"light_change": "same"}, (), ranking(base, acclimation=0.9))
    assert "keep_still" in ids(left.given)
