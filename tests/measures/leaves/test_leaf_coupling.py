"""Losses that follow new leaves, and losses that do not."""

import math
import random
from itertools import permutations

import pytest

from diagnose.measures.leaves import coupling
from diagnose.measures.leaves.consistency import cleaned_history
from leaf_cases import case_of, measured

OPENED = (1, 4, 8, 11, 13, 17, 20, 25, 27, 31, 34, 38, 41, 45, 47, 51)  # weeks


def case_with(fell, opened=OPENED, weeks=53, present=6):
    return case_of([(int(week in opened), int(week in fell)) for week in range(weeks)], present=present)


def test_losses_a_week_after_each_opening_are_coupled():
    found = measured(case_with({week + 1 for week in OPENED}))
    assert found["loss_coupled_to_new"].value == "yes"
    assert found["loss_delay_d"].value == 7
    assert found["loss_delay_d"].low <= 7 <= found["loss_delay_d"].high
    assert found["loss_delay_d"].remark == "known to about 7 days, the time between counts"


def test_losses_at_all_phases_are_not_coupled():
    found = measured(case_with({3, 7, 9, 12, 15, 19, 24, 26, 30, 33, 36, 40, 44, 46, 50}))
    assert found["loss_coupled_to_new"].value == "no"
    assert "loss_delay_d" not in found


def test_a_clockwork_plant_cannot_be_told_and_no_is_never_said():
    opened = tuple(range(1, 50, 4))
    found = measured(case_with({week + 2 for week in opened}, opened=opened))
    assert "loss_coupled_to_new" not in found


def test_one_sudden_shedding_is_no_coupling():
    weeks = [(int(week in OPENED), 5 if week == 12 else 0) for week in range(53)]
    assert "loss_coupled_to_new" not in measured(case_of(weeks, present=9))


def test_rare_counts_never_say_no():
    fell = {1: 1, 3: 1, 6: 1, 7: 1, 10: 1}
    weeks = [(1, fell.get(week, 0)) if week % 2 else (0, fell.get(week, 0)) for week in range(12)]
    assert measured(case_of(weeks, every=28)).get("loss_coupled_to_new") is None


def test_few_losses_are_tried_in_every_order_and_turn():
    history = cleaned_history(case_with({2, 5, 12}, opened=(1, 4, 11), weeks=14, present=4))
    found = coupling.coupling(history.stretches)
    assert found is not None
    # By hand: every order of the three gaps, every eighth of a stretch, each half leaf-day scored afresh.
    opened, fell = [1, 4, 11], [2, 5, 12]
    usual_wait = sorted([4 - 1, 11 - 4, 1 + 14 - 11])[1]
    cells = [7 * (s.present_before + s.present_after) for s in history.stretches]
    cell_at = [n for n, size in enumerate(cells) for _ in range(size)]

    def score(cell):
        since = min((cell - week) % 14 for week in opened)
        return math.cos(math.tau * (min(since / usual_wait, 0.7) - 0.2))

    middles = [sum(cells[: week + 1]) - cells[week] // 2 - 1 for week in fell]
    gaps = [middles[1] - middles[0], middles[2] - middles[1], middles[0] + len(cell_at) - middles[2]]
    turns = 8 * 14
    hits = 0
    for order in permutations(gaps):
        for turn in range(turns):
            start = len(cell_at) * turn // turns
            at = (start, start + order[0], start + order[0] + order[1])
            hits += sum(score(cell_at[x % len(cell_at)]) for x in at) >= sum(map(score, fell)) - 1e-9
    assert found.p == pytest.approx(hits / (6 * turns))


@pytest.mark.parametrize("seed", range(3))
def test_the_median_lies_within_its_limits(seed):
    pick = random.Random(seed)
    values = tuple(pick.uniform(0, 30) for _ in range(5 + 10 * seed))
    low, middle, high = coupling.median_interval(values)
    assert min(values) <= low <= middle <= high <= max(values)


def test_limits_of_a_median_of_ten_are_the_second_and_ninth():
    # Order statistics 2 and 9 of 10 hold the median with 97.9 %: sums of binomial coefficients, 1002 of 1024.
    assert coupling.median_interval(tuple(range(1, 11))) == (2, 5.5, 9)
