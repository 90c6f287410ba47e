from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.measures import feeding, roots
from diagnose.measures.feeding.load import usual_n_g_m2_week
from diagnose.measures.feeding.ramp import SETTLING_WEEKS, ramp_up
from diagnose.measures.feeding.salts import HIGHEST_RATIO, Habit, medium_ec_class, salt_ratio
from diagnose.measures.feeding.strength import dose_for_ppm_g_l, feed_ec_ms_cm, nutrient_ppm
from diagnose.measures.measure import Value
from legal_answers import already, check_contract, inputs, legal, measured, questions

FEED: dict[str, Value] = {
    "feed_n_percent": 20.0,
    "feed_dose_g_l": 0.5,
    "feed_every_d": 14.0,
    "pot_top_cm": 15.24,
    "medium": "soil_mix",
}
percents, doses = st.floats(0, 60), st.floats(0, 50)
shares = st.floats(0, 0.9)


def test_every_input_is_a_question_or_part_of_the_case() -> None:
    assert set(inputs(feeding)) <= set(questions()) | {"plant", "place"}


@given(legal((*inputs(feeding), "feed_p2o5_percent", "feed_k2o_percent")), st.none() | st.floats(0, 60))
def test_any_legal_answers_keep_the_contract(answers: dict[str, Value], dli: float | None) -> None:
    before = {} if dli is None else already(dli_mol_m2_d=dli)
    check_contract(measured(roots, feeding, answers=answers, before=before), feeding)


@given(percents, percents, doses)
def test_more_nitrogen_on_the_label_never_gives_fewer_ppm(percent: float, more: float, dose: float) -> None:
    richer = nutrient_ppm(percent + more, dose)
    assert richer >= nutrient_ppm(percent, dose) >= 0
    assert feed_ec_ms_cm(richer)[0] >= feed_ec_ms_cm(nutrient_ppm(percent, dose))[0]


@given(st.floats(0.1, 60), st.floats(0.1, 1000))
def test_a_dose_for_a_strength_gives_that_strength(percent: float, ppm: float) -> None:
    assert nutrient_ppm(percent, dose_for_ppm_g_l(percent, ppm)) == pytest.approx(ppm)


@given(st.floats(0, 60), st.floats(0, 30))
def test_more_light_never_wants_less_feed(dli: float, brighter: float) -> None:
    assert usual_n_g_m2_week(dli + brighter) >= usual_n_g_m2_week(dli) * (1 - 1e-12) > 0


@given(st.floats(0, 5000), st.floats(0, 100), shares, st.floats(0.3, 1), st.floats(0, 0.5))
def test_salts_stay_in_bounds_and_more_drainage_never_leaves_more(
    waterings: float, more: float, leached: float, left: float, drained: float
) -> None:
    ratio = salt_ratio(waterings, Habit(leached, left))
    assert 0 < ratio <= HIGHEST_RATIO
    assert salt_ratio(waterings, Habit(leached + drained * (0.95 - leached), left)) <= ratio + 1e-9
    if leached <= left:
        assert salt_ratio(waterings + more, Habit(leached, left)) >= ratio - 1e-9


@given(st.floats(0.01, 0.9), st.floats(0.1, 1), st.floats(0.05, 1), st.integers(0, 60))
def test_the_closed_sum_agrees_with_watering_step_by_step(
    leached: float, left: float, drawn: float, waterings: int
) -> None:
    salts = 1.0
    for _ in range(waterings):
        poured = drawn / (1 - leached)
        salts = (salts + left * drawn / (1 - leached)) / (1 + poured - drawn)
    assert salt_ratio(waterings, Habit(leached, left), drawn) == pytest.approx(min(salts, HIGHEST_RATIO))


@given(st.floats(0.01, 1), st.integers(0, 20))
def test_a_ramp_rises_gently_to_its_target(target: float, wait: int) -> None:
    steps = ramp_up(target, wait)
    assert steps[0] == (wait + 1, min(0.25, target))
    assert steps[-1][1] == target
    for (week, share), (next_week, next_share) in pairwise(steps):
        assert next_week - week == 2
        assert 0 < next_share - share <= 0.125


def test_the_ramp_to_half_strength_after_a_repot() -> None:
    assert ramp_up(0.5, SETTLING_WEEKS) == ((5, 0.25), (7, 0.375), (9, 0.5))


@given(st.floats(0, 20), st.floats(0, 20), st.sampled_from(["pour_through", "saturated_paste", "one_to_two"]))
def test_saltier_media_never_get_a_lower_class(ec: float, more: float, method: str) -> None:
    order = ["very_low", "low", "normal", "high", "very_high"]
    assert order.index(medium_ec_class(ec + more, method)) >= order.index(medium_ec_class(ec, method))


def test_an_unknown_method_gives_no_class() -> None:
    assert "medium_ec_class" not in measured(feeding, answers={"medium_ec_ms_cm": 3.0})


def test_no_feed_at_all_is_no_load() -> None:
    results = measured(feeding, answers=FEED | {"feeding": "never"})
    assert results["weekly_n_load_percent"].value == 0
    assert results["weekly_n_load_percent"].used == ("feeding",)


def test_load_halves_when_feeding_half_as_often() -> None:
    often, seldom = (
        measured(feeding, answers=FEED | {"feed_every_d": d})["weekly_n_load_percent"].value
        for d in (7.0, 14.0)
    )
    assert often == pytest.approx(2 * seldom)


def test_the_same_feed_weighs_more_in_a_dark_corner() -> None:
    dark, bright = (
        measured(feeding, answers=FEED, before=already(dli_mol_m2_d=d))["weekly_n_load_percent"]
        for d in (0.2, 5.0)
    )
    assert float(dark.value) > 3 * float(bright.value)
    assert "dli_mol_m2_d" in dark.used


def test_the_remark_tells_elements_not_oxides() -> None:
    answers = FEED | {"feed_p2o5_percent": 20.0, "feed_k2o_percent": 20.0}
    assert measured(feeding, answers=answers)["feed_n_ppm"].remark == "N 100, P 44, K 83 ppm."


def test_water_adds_its_own_salts() -> None:
    plain = measured(feeding, answers=FEED | {"water_source": "rain_or_pure"})["feed_ec_ms_cm"]
    hard = measured(feeding, answers=FEED | {"water_ec_ms_cm": 0.9})["feed_ec_ms_cm"]
    assert float(hard.value) - float(plain.value) == pytest.approx(0.85)
    assert not hard.assumed


def test_salts_build_up_with_water_used_not_with_the_number_of_waterings() -> None:
    answers: dict[str, Value] = {"flushing": "never", "medium_age_months": 12.0, "drainage": "none"}
    daily, weekly = (
        float(
            measured(feeding, answers=answers | {"watering_every_d": d}, before=already(days_to_dry=14.0))[
                "salt_ratio"
            ].value
        )
        for d in (1.0, 7.0)
    )
    assert daily == pytest.approx(weekly)


def test_salts_build_up_less_with_flushing_and_most_without_holes() -> None:
    base: dict[str, Value] = {"watering_every_d": 7.0, "medium_age_months": 18.0}
    flushed, never, closed = (
        float(measured(feeding, answers=base | extra)["salt_ratio"].value)
        for extra in (
            {"flushing": "monthly", "drainage": "free"},
            {"flushing": "never", "drainage": "free"},
            {"flushing": "never", "drainage": "none"},
        )
    )
    assert 1 < flushed < never < closed
