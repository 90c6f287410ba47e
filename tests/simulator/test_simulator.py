"""The simulated plant behaves as told, and the measures find on it what is there and nothing that is not.

A small version of report.py: the same plants on every run, with bounds wide of the figures that it prints.
"""

import random
from dataclasses import replace

import pytest

from diagnose.measures.leaves.consistency import inconsistencies
from simulator import STEADY_AGEING, STEADY_CHANCE, STEADY_OWN_AGE, Life, counted, followed, grow
from trials import CHANGED, STEADY, has, holds, plants, shares


def grown(life, seed=1):
    return grow(life, random.Random(seed))


def found_on(life, count, **watch):
    return [found for _, found in plants(life, count, lambda plant: counted(plant, **watch))]


@pytest.mark.parametrize("life", [*STEADY.values(), *CHANGED.values()])
def test_what_is_counted_adds_up(life):
    for seed in range(5):
        case = counted(grown(life, seed))
        assert inconsistencies(case) == ()
        assert case.leaf_history[-1].present == grown(life, seed).standing(life.days)


def test_the_same_seed_grows_the_same_plant():
    assert grown(STEADY_CHANCE) == grown(STEADY_CHANCE)
    assert grown(STEADY_CHANCE, 1) != grown(STEADY_CHANCE, 2)


def test_more_light_opens_more_leaves():
    def opened(dli):
        return sum(day > 0 for day, _ in grown(replace(STEADY_AGEING, dli=dli)).leaves)

    assert opened(2) < opened(5) < opened(15)


def test_leaves_that_cannot_be_fed_are_shed():
    dim = grown(Life(dli=0.5, sheds_after_d=(6, 3)))
    assert dim.standing(364) < dim.standing(-170)


def test_winter_slows_growth():
    wintry = grown(replace(STEADY_AGEING, dli=5, winter_dip=0.7, days=365))
    opened = [day for day, _ in wintry.leaves if 0 < day <= 365]
    summer = sum(91 < day <= 274 for day in opened)
    assert summer > len(opened) - summer


def test_a_shock_takes_about_its_share():
    taken = []
    for seed in range(60):
        plant = grown(replace(STEADY_CHANCE, fall_chance_d=0, shock_day=200, days=230), seed)
        stood = [lost for opened, lost in plant.leaves if opened < 200]
        taken.append(sum(lost is not None for lost in stood) / len(stood))
    assert 0.5 < sum(taken) / len(taken) < 0.7  # told to take 60 %


@pytest.mark.parametrize("life", STEADY.values(), ids=STEADY)
def test_steady_plants_seldom_raise_a_false_alarm(life):
    found = found_on(life, 120)
    trend = shares(found, "loss_trend")
    assert trend.get("rising", 0) + trend.get("falling", 0) <= 10
    assert has(found, "loss_change_days_ago") <= 10
    assert has(found_on(life, 120, harmless_event_day=200), "loss_change_days_ago") <= 10


def test_coupled_plants_are_found_and_others_seldom():
    coupled = shares(found_on(STEADY_AGEING, 60), "loss_coupled_to_new")
    assert coupled["yes"] >= 75
    assert coupled.get("no", 0) <= 7
    for life in (STEADY_CHANCE, STEADY_OWN_AGE):
        said = shares(found_on(life, 60), "loss_coupled_to_new")
        assert said.get("yes", 0) <= 15
        assert said["no"] >= 15


def test_the_order_of_loss_is_found():
    assert shares(found_on(STEADY_AGEING, 40), "oldest_first") == {"yes": 100}
    assert shares(found_on(STEADY_CHANCE, 40), "oldest_first")["no"] >= 60


def test_a_shock_to_many_leaves_is_found_dated_and_laid_to_the_move():
    found = found_on(CHANGED["shock, 15 leaves by chance"], 40)
    assert has(found, "loss_change_days_ago") >= 90
    assert shares(found, "loss_change_after")["moved"] >= 85


def test_failing_roots_are_found_more_often_than_false_alarms():
    for name in ("roots fail, ageing plant", "roots fail, chance plant"):
        assert has(found_on(CHANGED[name], 60), "loss_change_days_ago") >= 30


def test_leaf_life_is_found_from_dated_leaves_and_from_counts():
    life = replace(STEADY_OWN_AGE, days=546)
    for watch in (followed, counted):
        found = [f["leaf_life_d"] for _, f in plants(life, 40, watch) if "leaf_life_d" in f]
        middle = sorted(m.value for m in found)[len(found) // 2]
        assert 108 <= middle <= 132  # told to live 120 days
        assert sum(holds(m, 120) for m in found) >= 0.8 * len(found)
