import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.measures import air, roots
from diagnose.measures.measure import Value
from diagnose.measures.needs import PlantNeeds
from diagnose.measures.roots.drying import Surroundings, days_to_dry, evaporation_ml_d, transpiration_g_m2_d
from diagnose.measures.roots.medium import MEDIA
from diagnose.measures.roots.pot import (
    ROOT_TRIM_MOST_PERCENT,
    Pot,
    leaves_to_keep,
    next_pot_top_cm,
    room_gained_percent,
    usual_pot,
)
from legal_answers import already, check_contract, ends, inputs, legal, measured, questions

POT: dict[str, Value] = {"pot_top_cm": 14.0, "pot_base_cm": 10.0, "pot_height_cm": 13.0, "medium": "soil_mix"}
sizes = st.floats(3, 100)
pots = st.builds(Pot, sizes, st.floats(2, 100), sizes)
surroundings = st.builds(Surroundings, st.floats(0, 60), st.floats(0, 12), st.floats(47, 106))


def test_every_input_is_a_question_or_part_of_the_case() -> None:
    assert set(inputs(roots)) <= set(questions()) | {"plant", "place"}


@given(
    legal((*inputs(roots), "day_temp_c", "humidity_percent")),
    st.none() | st.floats(0, 60),
    st.none() | st.floats(-430, 6000),
    st.booleans(),
)
def test_any_legal_answers_keep_the_contract(
    answers: dict[str, Value], dli: float | None, elevation_m: float | None, with_needs: bool
) -> None:
    before = {} if dli is None else already(dli_mol_m2_d=dli)
    needs = {} if with_needs else {"needs": PlantNeeds()}
    results = measured(air, roots, answers=answers, before=before, elevation_m=elevation_m, **needs)
    check_contract(results, roots)


@given(pots, st.floats(1, 5), surroundings, st.floats(0, 2), st.booleans())
def test_the_same_plant_in_a_larger_pot_never_dries_sooner(
    pot: Pot, scale: float, around: Surroundings, leaf_m2: float, clay: bool
) -> None:
    larger = Pot(pot.top_cm * scale, pot.base_cm * scale, pot.height_cm * scale)
    days = [
        days_to_dry(
            each.volume_l * 10 * MEDIA["soil_mix"].water_percent,
            leaf_m2 * transpiration_g_m2_d(around) + evaporation_ml_d(each, around, clay=clay),
        )
        for each in (pot, larger)
    ]
    assert days[1] >= days[0] * (1 - 1e-12)


@given(st.floats(3, 50), st.floats(1, 2), st.sampled_from(sorted(MEDIA)))
def test_a_larger_pot_never_dries_sooner_by_the_measure_either(top: float, scale: float, medium: str) -> None:
    small, large = (
        measured(roots, answers={"pot_top_cm": size, "medium": medium})["days_to_dry"]
        for size in (top, top * scale)
    )
    assert float(large.value) >= float(small.value) * (1 - 1e-12)


@given(surroundings, st.floats(0, 30), st.floats(0, 5))
def test_more_light_or_drier_air_never_uses_less_water(
    around: Surroundings, brighter: float, drier: float
) -> None:
    use = transpiration_g_m2_d(around)
    assert use > 0
    brighter_air = Surroundings(around.dli_mol_m2_d + brighter, around.vpd_kpa, around.pressure_kpa)
    drier_air = Surroundings(around.dli_mol_m2_d, around.vpd_kpa + drier, around.pressure_kpa)
    assert transpiration_g_m2_d(brighter_air) >= use
    assert transpiration_g_m2_d(drier_air) >= use


@given(st.sampled_from(sorted(MEDIA)), st.floats(0.1, 200), st.floats(0, 100))
def test_a_taller_pot_never_holds_a_smaller_share_of_air(medium: str, height: float, taller: float) -> None:
    curve = MEDIA[medium].drainage
    air_percent = curve.air_filled_percent(height)
    assert 0 <= air_percent <= curve.most_percent
    assert curve.air_filled_percent(height + taller) >= air_percent - 1e-9


@given(pots, st.floats(0, 120))
def test_part_of_a_pot_holds_no_more_than_the_pot(pot: Pot, depth: float) -> None:
    assert pot.filled_to(depth).volume_l <= pot.volume_l * (1 + 1e-9)
    assert pot.filled_to(pot.height_cm).volume_l == pytest.approx(pot.volume_l)


@given(st.integers(0, 2000), st.floats(0, 100), st.floats(0, 100))
def test_cutting_more_roots_never_keeps_more_leaves(leaves: int, cut: float, more: float) -> None:
    kept = leaves_to_keep(leaves, cut)
    assert leaves_to_keep(leaves, min(100, cut + more)) <= kept <= leaves
    assert kept >= leaves * (100 - ROOT_TRIM_MOST_PERCENT) / 100


@given(legal(inputs(roots)))
def test_the_indices_are_the_points_they_list(answers: dict[str, Value]) -> None:
    results = measured(roots, answers=answers)
    for name in ("overwatering_index", "drought_index"):
        if name in results:
            points = [
                float(part.rsplit(": ", 1)[1].split(" of ")[0]) for part in results[name].remark.split("; ")
            ]
            assert results[name].value == pytest.approx(min(100, sum(points)), abs=len(points) / 2 + 0.01)
            assert float(results[name].value) <= ends(results[name])[1] <= 100


def test_one_answer_makes_no_index() -> None:
    assert "overwatering_index" not in measured(roots, answers={"medium_now": "soggy"})


def test_a_drowned_plant_and_a_parched_one() -> None:
    drowned = POT | {
        "watering_every_d": 3.0,
        "dryness_before_watering": "still_wet",
        "medium_now": "soggy",
        "drainage": "none",
        "medium_when_drooping": "wet",
    }
    parched: dict[str, Value] = {
        "dries_in_d": 4.0,
        "watering_every_d": 12.0,
        "medium_now": "bone_dry",
        "pot_weight": "light",
        "dryness_before_watering": "dry_through",
    }
    wet, dry = measured(roots, answers=drowned), measured(roots, answers=parched)
    assert float(wet["overwatering_index"].value) >= 60
    assert float(wet["drought_index"].value) < 10
    assert float(dry["drought_index"].value) >= 60
    assert float(dry["overwatering_index"].value) < 10
    assert float(wet["watering_ratio"].value) > 1 > float(dry["watering_ratio"].value)
    assert "medium now soggy: 15 of 15" in wet["overwatering_index"].remark


def test_a_drying_time_that_was_seen_outweighs_the_sum() -> None:
    seen = measured(roots, answers=POT | {"dries_in_d": 9.0, "watering_every_d": 6.0})
    assert seen["days_to_dry"].used == ("dries_in_d",)
    assert seen["watering_ratio"].value == 1.5
    assert seen["watering_ratio"].used == ("dries_in_d", "watering_every_d")


def test_watering_long_before_it_is_dry_raises_one_index_and_long_after_the_other() -> None:
    told: dict[str, Value] = {"dries_in_d": 10.0, "medium_now": "moist"}
    early, in_time, late = (
        measured(roots, answers=told | {"watering_every_d": d}) for d in (4.0, 10.0, 25.0)
    )
    assert [each["overwatering_index"].value for each in (early, in_time, late)] == [25, 0, 0]
    assert [each["drought_index"].value for each in (early, in_time, late)] == [0, 0, 25]


def test_fewer_leaves_dry_the_pot_more_slowly() -> None:
    full, half = (
        measured(roots, answers=POT | {"leaves_standing": n, "leaves_before": 8.0})["days_to_dry"]
        for n in (8.0, 4.0)
    )
    assert float(half.value) > float(full.value) * 1.5


def test_a_pot_far_too_large_dries_more_slowly() -> None:
    grown, potted_on = (
        measured(roots, answers=POT | {"repot_step": "much_larger", "days_since_repotted": d})["days_to_dry"]
        for d in (400.0, 20.0)
    )
    assert float(potted_on.value) > float(grown.value) * 2


def test_what_is_guessed_is_said_and_widens_the_range() -> None:
    told = measured(roots, answers=POT, before=already(dli_mol_m2_d=2.0, vpd_kpa=1.2))["days_to_dry"]
    guessed = measured(roots, answers={"pot_top_cm": 14.0, "medium": "soil_mix"})["days_to_dry"]
    assert {a.name for a in guessed.assumed} == {
        "pot_base_cm",
        "pot_height_cm",
        "light",
        "deficit of the air",
        "leaves",
    }
    (narrow_low, narrow_high), (wide_low, wide_high) = ends(told), ends(guessed)
    assert wide_high / wide_low > narrow_high / narrow_low > 3


def test_plain_water_has_neither_air_nor_a_drying_time() -> None:
    results = measured(roots, answers=POT | {"medium": "water"})
    assert not {"air_filled_percent", "days_to_dry"} & set(results)


def test_the_reservoir_takes_its_share_and_lengthens_drying() -> None:
    clay = POT | {"medium": "mineral_passive"}
    dry = measured(roots, answers=clay)
    wet = measured(roots, answers=clay | {"reservoir_height_cm": 4.0})
    assert float(wet["reservoir_share_percent"].value) == pytest.approx(100 * 4 / 13)
    assert float(wet["days_to_dry"].value) > float(dry["days_to_dry"].value) * 2
    assert float(wet["air_filled_percent"].value) < float(dry["air_filled_percent"].value)


def test_an_old_mix_holds_less_air_and_clay_does_not_age() -> None:
    fresh, old, clay, old_clay = (
        float(
            measured(roots, answers=POT | {"medium": medium, "medium_age_months": age})[
                "air_filled_percent"
            ].value
        )
        for medium in ("soil_mix", "mineral_passive")
        for age in (3.0, 36.0)
    )
    assert old == pytest.approx(fresh * 0.7)
    assert clay == old_clay


def test_numbers_for_the_next_pot() -> None:
    assert next_pot_top_cm(12) == (14.5, 17)
    assert room_gained_percent(usual_pot(12), usual_pot(15)) == pytest.approx((15 / 12) ** 3 * 100 - 100)
    assert leaves_to_keep(10, 20) == 8
    assert leaves_to_keep(10, 90) == 7
    assert leaves_to_keep(1, 30) == 1
