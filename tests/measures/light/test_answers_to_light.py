"""From answers to measures: what is used, what is assumed, and when nothing can be said."""

import datetime as dt
import subprocess
import sys
from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case, Place
from diagnose.measures import light
from diagnose.measures.light import alternatives, read, this_month, year_of_light
from diagnose.measures.measure import Given, Measure, Value
from diagnose.measures.needs import LightNeed, PlantNeeds
from legal_answers import check_contract, ends, inputs, legal, questions

HAMBURG = Place(latitude=53.6, longitude=10.0)
NEEDS = PlantNeeds(light=LightNeed(origin="invented", least_dli_mol_m2_d=1.5, good_dli_mol_m2_d=4.0))
WINDOW: dict[str, Value] = {"window_direction": "south", "distance_to_window_cm": 100.0}
WHOLE: dict[str, Value] = WINDOW | {
    "window_width_cm": 120.0,
    "window_height_cm": 120.0,
    "window_sill_to_leaf_cm": 0.0,
    "window_offset_cm": 0.0,
    "glazing": "double",
    "window_cover": "none",
    "obstruction_deg": 10.0,
    "grow_light": "none",
}
LAMP: dict[str, Value] = {"grow_light": "present", "lamp_ppfd_umol_m2_s": 100.0, "lamp_h_d": 12.0}
METER: dict[str, Value] = {"light_meter": 5400.0, "light_meter_unit": "lux", "light_meter_source": "daylight"}


def asked(answers: Mapping[str, Value], place: Place = HAMBURG, month: int = 12) -> Given:
    return Given(Case(date=dt.date(2026, month, 3), place=place), answers, NEEDS)


def measured(answers: Mapping[str, Value], place: Place = HAMBURG, month: int = 12) -> dict[str, Measure]:
    return {each.name: each for each in light.measure(asked(answers, place, month))}


def dli(answers: Mapping[str, Value], place: Place = HAMBURG, month: int = 12) -> float:
    return float(measured(answers, place, month)["dli_mol_m2_d"].value)


def assumed(measure: Measure) -> dict[str, str]:
    return {each.name: each.effect for each in measure.assumed}


def test_every_input_is_a_question_or_part_of_the_case() -> None:
    assert set(inputs(light)) <= set(questions()) | {"place", "date", "plant"}


@given(legal(inputs(light)), st.sampled_from([HAMBURG, Place(), Place(latitude=-34.0, longitude=151.0)]))
def test_any_legal_answers_keep_the_contract(answers: dict[str, Value], place: Place) -> None:
    check_contract(measured(answers, place, 6), light)


@pytest.mark.parametrize("missing", sorted(WINDOW))
def test_a_window_without_direction_or_distance_says_nothing(missing: str) -> None:
    assert measured({name: value for name, value in WHOLE.items() if name != missing}) == {}


def test_without_a_place_a_window_says_nothing() -> None:
    assert measured(WHOLE, Place()) == {}
    assert measured(WHOLE, Place(latitude=53.6)) == {}


def test_all_measures_come_from_window_and_need() -> None:
    found = measured(WHOLE)
    assert set(found) == {each.name for each in light.DECLARED}
    share = found["light_share_of_least_percent"]
    assert share.value == pytest.approx(100 * float(found["dli_mol_m2_d"].value) / 1.5)
    assert "plant" in share.used
    assert found["darkest_month_dli_mol_m2_d"].remark == "December"


def test_months_below_a_need_are_counted_from_the_year() -> None:
    year = year_of_light(read(asked(WHOLE)).situation)
    assert year is not None
    below = sum(month.expected < 1.5 for month in year)
    assert measured(WHOLE)["months_below_least"].value == below
    assert 0 < below < 12
    few, many = ends(measured(WHOLE)["months_below_least"])
    assert few <= below <= many


def test_without_a_plant_need_only_light_itself_is_told() -> None:
    case = Case(date=dt.date(2026, 12, 3), place=HAMBURG)
    found = {each.name for each in light.measure(Given(case, WHOLE))}
    assert found == {"dli_mol_m2_d", "darkest_month_dli_mol_m2_d"}


def test_what_was_used_and_what_was_assumed() -> None:
    whole, bare = measured(WHOLE)["dli_mol_m2_d"], measured(WINDOW)["dli_mol_m2_d"]
    assert set(whole.used) == {"date", "place", *WHOLE}
    assert set(assumed(whole)) == {"clouds", "leaf"}
    assert set(bare.used) == {"date", "place", *WINDOW}
    assert {"window_width_cm", "glazing", "window_cover", "obstruction_deg", "grow_light"} <= set(
        assumed(bare)
    )
    assert bare.value == pytest.approx(whole.value)  # the usual values are those of WHOLE


def test_an_assumption_says_how_far_the_result_would_move() -> None:
    effect = assumed(measured(WINDOW)["dli_mol_m2_d"])["window_width_cm"]
    narrow, wide = dli(WHOLE | {"window_width_cm": 60.0}), dli(WHOLE | {"window_width_cm": 200.0})
    assert effect == f"60 cm: {narrow:.2g} mol/m²/d; 200 cm: {wide:.2g} mol/m²/d"


@pytest.mark.parametrize(
    ("question", "brighter", "darker"),
    [
        ("glazing", "single", "tinted"),
        ("window_cover", "insect_screen", "net_curtain"),
        ("sky_seen", "most", "sliver"),
        ("leaf_dust", "some", "thick"),
    ],
)
def test_words_move_the_light_the_right_way(question: str, brighter: str, darker: str) -> None:
    rest = {name: value for name, value in WHOLE.items() if name != "obstruction_deg"}
    assert dli(rest | {question: brighter}) > dli(rest | {question: darker}) > 0


def test_a_skyline_in_degrees_goes_before_the_word() -> None:
    assert dli(WHOLE | {"sky_seen": "none"}) == dli(WHOLE)


def test_no_window_is_dark_until_a_lamp_is_lit() -> None:
    assert dli({"window_direction": "none", "grow_light": "none"}, Place()) == 0
    assert dli({"window_direction": "none"} | LAMP, Place()) == pytest.approx(100 * 12 * 0.0036)


def test_the_lamp_adds_to_the_window_and_to_the_meter() -> None:
    assert dli(WHOLE | LAMP) == pytest.approx(dli(WHOLE) + 4.32)
    assert dli(METER | LAMP) == pytest.approx(dli(METER | {"grow_light": "none"}) + 4.32)


def test_a_lamp_alone_says_that_daylight_is_not_counted() -> None:
    found = measured(LAMP, Place())["dli_mol_m2_d"]
    assert found.value == pytest.approx(4.32)
    assert "daylight" in assumed(found)


def test_watts_are_a_rough_figure() -> None:
    rough: dict[str, Value] = {
        "lamp_w": 20.0,
        "lamp_distance_cm": 40.0,
        "lamp_h_d": 12.0,
        "window_direction": "none",
    }
    low, high = ends(measured(rough)["dli_mol_m2_d"])
    assert high == pytest.approx(4 * low)


def test_a_lamp_of_unknown_hours_is_not_counted_but_named() -> None:
    found = measured(WHOLE | {"grow_light": "present", "lamp_ppfd_umol_m2_s": 100.0})["dli_mol_m2_d"]
    assert found.value == pytest.approx(dli(WHOLE))
    assert assumed(found)["grow_light"] == "the lamp comes on top"


def test_a_daylight_reading_goes_before_the_window() -> None:
    found = measured(WHOLE | METER)["dli_mol_m2_d"]
    # 5400 lux of daylight are 100 µmol (L-17); half a sine over the 7.5 h of 3 December at 53.6 N
    assert found.value == pytest.approx(100 * 2 / 3.14159 * 7.48 * 0.0036, rel=0.01)
    assert "light_meter" in found.used
    assert "course of the day" in assumed(found)
    assert "clouds" not in assumed(found)


def test_a_reading_follows_the_window_through_the_year() -> None:
    window = year_of_light(read(asked(WHOLE)).situation)
    metered = year_of_light(read(asked(WHOLE | METER)).situation)
    assert window is not None
    assert metered is not None
    assert metered[8].expected / metered[11].expected == pytest.approx(
        window[8].expected / window[11].expected
    )


def test_a_reading_without_a_place_tells_this_month_alone() -> None:
    found = measured(METER, Place())
    assert set(found) == {"dli_mol_m2_d", "light_share_of_least_percent", "light_share_of_good_percent"}


def test_a_reading_under_a_lamp_lasts_as_long_as_the_lamp() -> None:
    lamp: dict[str, Value] = {
        "light_meter": 7400.0,
        "light_meter_unit": "lux",
        "light_meter_source": "fluorescent",
        "window_direction": "none",
    }
    assert dli(lamp | {"lamp_h_d": 10.0}) == pytest.approx(100 * 10 * 0.0036)
    assert dli(lamp) == 0  # hours unknown: not counted


def test_a_reading_brighter_than_the_sun_is_not_believed() -> None:
    assert dli(WHOLE | METER | {"light_meter": 5400.0, "light_meter_unit": "umol_m2_s"}) == dli(WHOLE)


@given(
    st.sampled_from(["lamp_ppfd_umol_m2_s", "lamp_h_d", "light_meter"]),
    st.floats(0, 20),
    st.floats(0, 4),
)
def test_more_light_never_lowers_the_result(name: str, base: float, more: float) -> None:
    start = WHOLE | METER | LAMP | {name: base}
    assert dli(start | {name: base + more}) >= dli(start)


def test_changes_and_what_they_bring() -> None:
    dusty = read(asked(WINDOW | {"window_direction": "north", "leaf_dust": "thick"})).situation
    now = this_month(dusty)
    assert now is not None
    found = {each.id: each for each in alternatives(dusty)}
    assert set(found) == {"clean_leaves", "nearer", "east", "south", "west", "lamp"}
    assert all(each.this_month.expected > now.expected for each in found.values())
    assert found["clean_leaves"].this_month.expected == pytest.approx(now.expected / 0.8)
    assert found["lamp"].this_month.expected == pytest.approx(now.expected + 0.8 * 100 * 12 * 0.0036)
    assert found["nearer"].label == "70 cm nearer to the window"


def test_a_burning_lamp_may_burn_longer_up_to_a_limit() -> None:
    changes = {each.id: each.label for each in alternatives(read(asked(WHOLE | LAMP)).situation)}
    assert changes["lamp_longer"] == "with the lamp on for 14 h a day"
    assert "lamp_longer" not in {
        each.id for each in alternatives(read(asked(WHOLE | LAMP | {"lamp_h_d": 16.0})).situation)
    }


def test_where_light_is_unknown_no_change_is_offered() -> None:
    assert alternatives(read(asked({}, Place())).situation) == ()


def loaded(code: str) -> set[str]:
    tail = "; print(*[m for m in ('numpy', 'scipy', 'pandas', 'pvlib') if m in sys.modules])"
    ran = subprocess.run([sys.executable, "-c", code + tail], capture_output=True, text=True, check=True)
    return set(ran.stdout.split())


def test_pvlib_is_loaded_for_a_window_and_for_nothing_else() -> None:
    start = (
        "import sys, datetime; from diagnose.case import Case, Place; from diagnose.measures import light;"
        "from diagnose.measures.measure import Given;"
        "case = Case(date=datetime.date(2026, 6, 1), place=Place(latitude=50, longitude=10));"
        "found = list(light.measure(Given(case, {answers!r})));"
        "assert found"
    )
    assert loaded(start.replace("{answers!r}", repr(METER | LAMP))) == set()
    assert "pvlib" in loaded(start.replace("{answers!r}", repr(WINDOW)))
