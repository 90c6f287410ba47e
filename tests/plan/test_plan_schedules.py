"""Computed parts of a plan against hand sums and the rules of thumb that they come from."""

import datetime as dt
from dataclasses import replace
from itertools import pairwise

import pytest

from diagnose import locations
from diagnose.case import Case, Place, Plant
from diagnose.casefile import read_case
from diagnose.diagnosis import plan_for
from diagnose.measures.light import Range, Situation
from diagnose.measures.measure import Given, Measure
from diagnose.measures.needs import HumidityNeed, LightNeed, PlantNeeds
from diagnose.plan.ground import Ground
from diagnose.plan.light import Light, amount, dli, light_of
from diagnose.plan.records import Step
from diagnose.plan.schedules import air, feeding, light, pots, watering, young

TODAY = dt.date(2026, 1, 10)
STEP = Step(
    "",
    "Do it.",
    "So.",
    "change",
    "other",
    "in_turn",
    "touch",
    TODAY,
    None,
    "",
    (),
    (),
    ("common practice",),
    house=False,
)
NEED = LightNeed(least_dli_mol_m2_d=1.15, good_dli_mol_m2_d=2.9, origin="L-50")


def ground(*steps, needs=None, before=(), light=None, **answers):
    given = Given(
        Case(date=TODAY), answers, needs or PlantNeeds(), {measure.name: measure for measure in before}
    )
    return Ground(given, {step: replace(STEP, id=step) for step in steps}, light)


def only(schedules):
    found = list(schedules)
    assert len(found) == 1
    return found[0]


@pytest.fixture(scope="module")
def windowed():
    place = Place(latitude=52.0, longitude=0.0)
    answers = {"window_direction": "south", "distance_to_window_cm": 320.0, "grow_light": "none"}
    given = Given(Case(date=TODAY, place=place), answers, PlantNeeds(light=NEED))
    return light_of(given, with_alternatives=True)


def test_nearer_goes_about_a_metre_a_day_then_a_quarter_and_never_to_the_glass(windowed):
    schedule = next(
        s for s in light.schedules(ground("move_closer_in_steps", light=windowed)) if s.id == "nearer"
    )
    places = [320.0] + [float(row.text.split(" cm")[0]) for row in schedule.rows]
    assert places == [320, 220, 120, 100, 75, 50, 30][: len(places)]
    assert len(places) > 2
    assert [row.date for row in schedule.rows] == [
        TODAY + dt.timedelta(days=n) for n in range(len(places) - 1)
    ]
    amounts = [float(row.text.split("about ")[1].split(" ")[0]) for row in schedule.rows]
    assert amounts == sorted(amounts)  # and it stops where nearer is not brighter


def test_choices_show_only_what_brings_more(windowed):
    schedule = next(s for s in light.schedules(ground(light=windowed)) if s.id == "light_choices")
    assert schedule.rows[0].text.startswith("as it is now")
    amounts = [float(row.text.split(": ")[1].split(" ")[0]) for row in schedule.rows]
    assert all(amount > amounts[0] for amount in amounts[1:])
    assert "1.15" in schedule.note
    assert "2.9" in schedule.note


def test_the_lamp_brings_what_is_lacking_by_the_sum_of_l_11():
    # L-11: 70 µmol/m²/s over 12 hours are 3.0 mol/m²/d; of 3.5 needed, with 0.476 there, 3.024 are lacking
    need = LightNeed(least_dli_mol_m2_d=1, good_dli_mol_m2_d=3.5, origin="L-51")
    there = Light(Situation(0), Range(0.4, 0.476, 0.6), None, need, ())
    schedule = only(light.schedules(ground("add_lamp", light=there)))
    assert schedule.rows[0].text.startswith("35 µmol/m²/s")
    assert schedule.rows[1].text.startswith("70 µmol/m²/s")
    assert (schedule.rows[1].date - schedule.rows[0].date).days == 14


def test_no_lamp_where_light_is_ample():
    there = Light(Situation(0), Range(4, 5, 6), None, NEED, ())
    assert list(light.schedules(ground("add_lamp", light=there))) == []


@pytest.mark.parametrize(("hours", "goal"), [(8.0, 12.0), (11.5, 12.0), (12.0, 14.0), (13.0, 14.0)])
def test_lamp_hours_grow_by_one_every_third_day(hours, goal):
    schedule = only(light.schedules(ground("lengthen_lamp_hours", lamp_h_d=hours, lamp_ppfd_umol_m2_s=70.0)))
    told = [hours] + [float(row.text.split(" hours")[0]) for row in schedule.rows]
    assert told[-1] == goal
    assert all(0 < later - earlier <= 1 for earlier, later in pairwise(told))
    assert all((b.date - a.date).days == 3 for a, b in pairwise(schedule.rows))


def test_no_longer_hours_without_a_night():
    assert list(light.schedules(ground("lengthen_lamp_hours", lamp_h_d=14.0))) == []


def test_down_to_less_light_takes_eight_weeks():
    schedule = only(light.schedules(ground("step_down_light")))
    assert (schedule.rows[-1].date - schedule.rows[0].date).days == 56  # Ficus, eight weeks of shading (L-64)
    assert "L-64" in schedule.origin


def test_hardly_any_light_gets_no_digits():
    assert dli(Range(0.004, 0.005, 0.006)) == "below 0.05 mol/m²/d"
    assert amount(Range(0.3, 0.5, 0.8)) == ("0.5", "0.3 to 0.8")


def test_feeding_starts_at_a_quarter_and_ends_at_half_in_grams():
    # N-06: ppm = 10 x % x g/L, so 50 and 100 ppm of a 20 % feed are 0.25 and 0.5 g/L
    schedule = only(
        feeding.schedules(ground("feed_ramp", feed_n_percent=20.0, feed_dose_g_l=1.0, feed_strength="label"))
    )
    assert [row.text for row in schedule.rows] == [
        "a quarter of the label's rate, 0.25 g/L",
        "three eighths of the label's rate, 0.38 g/L",
        "half of the label's rate, 0.5 g/L",
    ]
    assert [(row.date - TODAY).days for row in schedule.rows] == [0, 14, 28]
    assert "0.25 to 0.5 g/L" in schedule.note


@pytest.mark.parametrize(("home", "first"), [(3.0, 28), (8.0, 21), (27.9, 7), (28.0, 0), (200.0, 0)])
def test_a_newcomer_waits_a_month_for_feed(home, first):
    schedule = only(feeding.schedules(ground("feed_ramp", days_since_brought_home=home)))
    assert (schedule.rows[0].date - TODAY).days == first


def test_no_feeding_before_the_plan_says_so():
    assert list(feeding.schedules(ground(feed_n_percent=20.0))) == []


def test_the_next_pot_is_an_inch_or_two_wider():
    schedule = only(pots.schedules(ground("pot_up_one_size", pot_top_cm=12.0)))
    assert "12 cm wide, about 0.96 L" in schedule.rows[0].text  # W-20: 12/9/11 cm hold 959 mL
    assert [row.text.split(" cm")[0] for row in schedule.rows[1:]] == ["14.5", "17"]  # W-17: 2.5 to 5 cm
    assert "76 % more room" in schedule.rows[1].text  # (14.5/12)³ = 1.764


def test_a_rotten_plant_gets_no_wider_pot():
    schedule = only(pots.schedules(ground("repot_airy", pot_top_cm=12.0)))
    assert "12 cm or less" in schedule.rows[1].text


def test_water_stands_no_higher_than_a_third():
    schedule = only(
        pots.schedules(ground("dry_spell_reservoir", pot_height_cm=12.0, reservoir_height_cm=6.0))
    )
    assert schedule.rows[0].text == "now 6 cm, 50 % of the height"
    assert schedule.rows[1].text == "fill to 3 cm, at most 4 cm, of the 12 cm"


def test_leaves_go_with_the_roots():
    standing = Measure("standing_leaves", 12.0, ("leaves_standing",))
    schedule = only(pots.schedules(ground("trim_rotten_roots", before=[standing])))
    kept = [int(row.text.split("keep ")[1].split(" of")[0]) for row in schedule.rows]
    assert kept == [11, 10, 9]  # 90, 80 and 67 % of 12, rounded up


def test_damper_air_by_ten_points_a_week_to_sixty_at_most():
    needs = PlantNeeds(humidity=HumidityNeed(least_percent=40, good_percent=80, origin="invented"))
    schedule = only(air.schedules(ground("raise_humidity", needs=needs, humidity_percent=34.0)))
    told = [34.0] + [float(row.text.split("than ")[1].split(" ")[0]) for row in schedule.rows]
    assert told == [34, 44, 54, 60]  # above 60 % homes grow mould
    assert [(row.date - TODAY).days for row in schedule.rows] == [0, 7, 14]


def test_damp_air_is_not_raised():
    needs = PlantNeeds(humidity=HumidityNeed(least_percent=40, good_percent=60, origin="invented"))
    assert list(air.schedules(ground("raise_humidity", needs=needs, humidity_percent=65.0))) == []


def test_a_cover_is_off_after_a_fortnight():
    schedule = only(air.schedules(ground("tent_new_arrival")))
    assert (schedule.rows[-1].date - TODAY).days == 14
    assert schedule.rows[1].text == "open it 1 hand's width"


def test_drying_is_told_from_the_last_watering():
    dry = Measure("days_to_dry", 8.0, ("dries_in_d",), 6.0, 10.0)
    schedule = only(
        watering.schedules(
            ground(
                before=[dry],
                medium="soil_mix",
                days_since_watered=3.0,
                watering_every_d=4.0,
                plant_water="top_dry",
            )
        )
    )
    assert "about 8 days after a soak (6 to 10)" in schedule.rows[0].text
    assert any("before the last is used" in row.text for row in schedule.rows)
    dated = [(row.date - TODAY).days for row in schedule.rows if row.date]
    assert dated == [3, 7]  # watered on day -3


@pytest.mark.parametrize(("every", "words"), [(12.0, "it stands dry"), (8.0, "about as it dries")])
def test_the_habit_is_set_against_the_expected_drying(every, words):
    dry = Measure("days_to_dry", 8.0, ("dries_in_d",), 6.0, 10.0)
    schedule = only(watering.schedules(ground(before=[dry], medium="soil_mix", watering_every_d=every)))
    assert any(words in row.text for row in schedule.rows)


def test_no_drying_time_without_numbers():
    assert list(watering.schedules(ground(medium="soil_mix"))) == []


@pytest.mark.parametrize("step", ["sprout_corms", "save_the_corm", "separate_offsets", "take_cutting"])
def test_young_plants_have_a_course(step):
    schedule = only(young.schedules(ground(step)))
    assert schedule.rows[0].date == TODAY
    assert schedule.origin


def test_schedules_reach_the_plan(diagnostician):
    case = read_case(locations.demo_cases() / "dim_and_waterlogged.toml")[0]
    ids = {schedule.id for schedule in plan_for(diagnostician.diagnose(case)).schedules}
    assert {"light_choices", "nearer", "lamp"} <= ids


def test_a_bare_case_has_no_schedules(diagnostician):
    plan = plan_for(diagnostician.diagnose(Case(date=TODAY, plant=Plant(profile="alocasia"))))
    assert plan.only_looks
    assert plan.schedules == ()
    assert plan.light is None


def test_a_plan_tells_of_one_lamp_alone(windowed):
    found = {s.id: s for s in light.schedules(ground("add_lamp", light=windowed))}
    assert "lamp" in found
    assert not any("lamp" in row.text for row in found["light_choices"].rows)
    without = next(s for s in light.schedules(ground(light=windowed)) if s.id == "light_choices")
    assert any("lamp" in row.text for row in without.rows)
