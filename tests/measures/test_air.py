import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from diagnose.measures import air
from diagnose.measures.air.chill import chill_in_a_night
from diagnose.measures.air.glass import PANES, glass_temperature_c
from diagnose.measures.air.vapour import dew_point_c, vapour_pressure_deficit_kpa, vapour_pressure_kpa
from diagnose.measures.measure import Value
from diagnose.measures.needs import PlantNeeds
from legal_answers import already, check_contract, ends, inputs, legal, measured, questions

ROOM: dict[str, Value] = {"day_temp_c": 22.0, "humidity_percent": 40.0, "night_low_c": 16.0}
temperatures = st.floats(-10, 50)


def test_every_input_is_a_question_or_part_of_the_case() -> None:
    assert set(inputs(air)) <= set(questions()) | {"plant"}


@given(legal(inputs(air)), st.none() | st.floats(0, 24), st.booleans())
def test_any_legal_answers_keep_the_contract(
    answers: dict[str, Value], day_length_h: float | None, with_needs: bool
) -> None:
    before = {} if day_length_h is None else already(day_length_h=day_length_h)
    if with_needs:
        results = measured(air, answers=answers, before=before)
    else:
        results = measured(air, answers=answers, before=before, needs=PlantNeeds())
        assert not {"chill_degree_hours", "night_shortfall_k", "humidity_shortfall_percent"} & set(results)
    check_contract(results, air)


@given(legal(tuple(set(inputs(air)) - {"humidity_percent"})), st.sampled_from(["dry", "middling", "humid"]))
def test_a_feeling_for_the_air_is_no_humidity(answers: dict[str, Value], feel: str) -> None:
    results = measured(air, answers=answers | {"air_feel": feel})
    assert not {"vpd_kpa", "dew_point_c", "glass_wet", "humidity_shortfall_percent"} & set(results)


@given(temperatures, st.floats(0, 20), st.floats(0.001, 8))
def test_warmer_at_equal_vapour_never_dries_less(temp_c: float, warmer_k: float, vapour_kpa: float) -> None:
    deficit = vapour_pressure_deficit_kpa(temp_c, vapour_kpa)
    assert vapour_pressure_deficit_kpa(temp_c + warmer_k, vapour_kpa) >= deficit >= 0


@given(temperatures, st.floats(1, 100))
def test_the_dew_point_is_never_above_the_air_and_undoes_saturation(temp_c: float, humidity: float) -> None:
    dew = dew_point_c(vapour_pressure_kpa(temp_c, humidity))
    assert dew <= temp_c + 1e-9
    assert vapour_pressure_kpa(dew, 100) == pytest.approx(vapour_pressure_kpa(temp_c, humidity))


@given(st.sampled_from(sorted(PANES)), st.floats(-10, 40), st.floats(-50, 45))
def test_glass_lies_between_indoors_and_outdoors(glazing: str, indoor_c: float, outdoor_c: float) -> None:
    pane = PANES[glazing]
    assert pane.best <= pane.u_w_m2k <= pane.worst
    for u in (pane.best, pane.u_w_m2k, pane.worst):
        glass = glass_temperature_c(indoor_c, outdoor_c, u)
        assert min(indoor_c, outdoor_c) - 1e-9 <= glass <= max(indoor_c, outdoor_c) + 1e-9


@given(temperatures, st.floats(0, 40), st.floats(-5, 20), st.floats(0, 24), st.floats(0, 10))
def test_a_colder_night_never_chills_less(
    evening_c: float, drop_k: float, limit_c: float, night_h: float, colder_k: float
) -> None:
    low_c = evening_c - drop_k
    chill = chill_in_a_night(evening_c, low_c, limit_c, night_h)
    colder = chill_in_a_night(evening_c, low_c - colder_k, limit_c, night_h)
    assert 0 <= chill.least <= chill.expected + 1e-9
    assert chill.expected <= chill.most + 1e-9
    assert colder.expected >= chill.expected - 1e-6
    assert colder.most >= chill.most


@given(st.floats(10, 30), st.floats(0.1, 20), st.floats(-5, 20))
def test_the_sine_night_agrees_with_a_sum_over_minutes(
    evening_c: float, drop_k: float, limit_c: float
) -> None:
    import math

    steps = 2000
    hours = [12 * (i + 0.5) / steps for i in range(steps)]
    summed = sum(
        max(0.0, limit_c - (evening_c - drop_k * math.sin(math.pi * h / 12))) * 12 / steps for h in hours
    )
    assert chill_in_a_night(evening_c, evening_c - drop_k, limit_c, 12).expected == pytest.approx(
        summed, abs=2e-3
    )


@given(st.floats(1, 100), st.floats(0, 50))
def test_more_humidity_never_raises_the_deficit(humidity: float, day: float) -> None:
    assume(humidity <= 95)
    drier = measured(air, answers={"day_temp_c": day, "humidity_percent": humidity})
    damper = measured(air, answers={"day_temp_c": day, "humidity_percent": humidity + 5})
    assert float(damper["vpd_kpa"].value) <= float(drier["vpd_kpa"].value)


def test_a_cold_night_at_a_single_pane_is_wet_and_said_so() -> None:
    answers = ROOM | {"outdoor_low_c": -5.0, "glazing": "single"}
    results = measured(air, answers=answers)
    assert results["glass_wet"].value == "yes"
    assert set(results["glass_wet"].used) == set(answers)


def test_the_same_night_behind_coated_glass_is_dry() -> None:
    answers = ROOM | {"outdoor_low_c": -5.0, "glazing": "coated"}
    assert measured(air, answers=answers)["glass_wet"].value == "no"


def test_unknown_glazing_gives_no_answer_where_glazing_decides() -> None:
    results = measured(air, answers=ROOM | {"outdoor_low_c": -5.0})
    assert "glass_wet" not in results
    assert [a.name for a in results["glass_temp_c"].assumed] == ["glazing"]
    coldest, warmest = ends(results["glass_temp_c"])
    assert warmest - coldest > 10


def test_unknown_glazing_gives_an_answer_where_it_does_not_matter() -> None:
    assert measured(air, answers=ROOM | {"outdoor_low_c": 15.0})["glass_wet"].value == "no"


def test_cold_nights_are_measured_against_the_profile() -> None:
    results = measured(air, answers={"day_temp_c": 20.0, "night_low_c": 8.0})
    assert results["night_shortfall_k"].value == 9
    assert results["day_night_swing_k"].value == 12
    # least: a V, 12 h x (12 - 8)² / (2 x 12); most: 12 h at 4 K below
    assert ends(results["chill_degree_hours"]) == pytest.approx((8, 48))
    assert 8 < float(results["chill_degree_hours"].value) < 48


def test_the_night_in_the_room_is_assumed_aloud_when_only_the_day_is_known() -> None:
    results = measured(air, answers={"day_temp_c": 20.0, "outdoor_low_c": 0.0, "glazing": "single"})
    assert results["glass_temp_c"].used == ("outdoor_low_c", "day_temp_c", "glazing")
    assert results["glass_temp_c"].assumed[0].value == "17 °C"
