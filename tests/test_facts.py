"""Answers become facts; what a question does not take is told and left out."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case, Event, Place, Plant
from diagnose.facts import gather, told_if

DAY = dt.date(2026, 11, 25)


def facts(base, **case):
    return gather(Case(date=DAY, **case), base)


@pytest.mark.parametrize(
    ("answers", "known"),
    [
        ({"window_direction": "north"}, {"window_direction": "north"}),
        ({"stretched": True}, {"stretched": "yes"}),
        ({"stretched": "no"}, {"stretched": "no"}),
        ({"night_low_c": 14}, {"night_low_c": 14.0}),
        ({"days_since_moved": dt.date(2026, 11, 20)}, {"days_since_moved": 5.0}),
        ({"days_since_moved": "2026-11-20"}, {"days_since_moved": 5.0}),
        ({"pest_signs": ("webbing",)}, {"pest_signs.webbing": "yes", "pest_signs.cotton": "no"}),
        ({"pest_signs": ()}, {"pest_signs.webbing": "no"}),
    ],
)
def test_each_kind_of_answer_gives_its_facts(base, answers, known):
    gathered = facts(base, answers=answers)
    assert gathered.problems == ()
    assert {name: gathered.facts[name].value for name in known} == known


@pytest.mark.parametrize(
    ("answers", "sentence"),
    [
        (
            {"window_direction": "norht"},
            "answers, window_direction: found 'norht', expected one of north, north_east",
        ),
        ({"window_direction": 3}, "found 3, expected one of north"),
        ({"night_low_c": 140}, "answers, night_low_c: found 140, expected a number from -10 to 40 °C."),
        ({"humidity_percent": 140}, "found 140, expected a number from 1 to 100 %."),
        ({"window_width_cm": 0}, "found 0, expected a number from 5 to 1500 cm."),
        ({"night_low_c": True}, "found true, expected a number"),
        ({"stretched": "maybe"}, "found 'maybe', expected yes or no."),
        ({"pest_signs": "webbing"}, "expected a list of choices"),
        (
            {"days_since_moved": dt.date(2027, 1, 1)},
            "found 2027-01-01, expected a date not after the case's date, 2026-11-25.",
        ),
        (
            {"windo_direction": "north"},
            "found an answer to 'windo_direction', which no question asks, expected the id of a question; did you mean 'window_direction'.",
        ),
        ({"leaf_history": "5"}, "expected no answer here"),
    ],
)
def test_a_bad_answer_is_told_and_left_out(base, answers, sentence):
    gathered = facts(base, answers=answers | {"medium": "soil_mix"})
    (problem,) = gathered.problems
    assert sentence in problem.sentence()
    assert gathered.facts["medium"].value == "soil_mix"
    assert not set(answers) & set(gathered.facts)


def test_a_date_question_is_also_answered_by_the_latest_event(base):
    events = (
        Event(date=dt.date(2026, 9, 1), kind="moved"),
        Event(date=dt.date(2026, 11, 1), kind="moved"),
        Event(date=dt.date(2026, 12, 1), kind="moved"),  # after the case's date
    )
    fact = facts(base, events=events).facts["days_since_moved"]
    assert (fact.value, fact.source) == (24.0, "event")


def test_a_profile_gives_traits_and_needs_and_generic_gives_none(base):
    known = facts(base, plant=Plant(profile="alocasia"))
    assert known.facts["plant_family"].value == "araceae"
    assert known.facts["plant_sheds_old_for_new"].value == "yes"
    assert known.needs.light is not None
    generic = facts(base, plant=Plant(profile="generic"))
    assert not any(name.startswith("plant_") for name in generic.facts)
    assert "alocasia" in facts(base, plant=Plant(profile="alocasla")).problems[0].sentence()


def test_an_unknown_city_is_told_with_the_nearest(base):
    (problem,) = facts(base, place=Place(city="Stokholmm")).problems
    assert "stockholm" in problem.sentence()


def test_the_far_south_gets_its_own_season(base):
    south = facts(base, place=Place(latitude=-45.9, longitude=170.5))
    north = facts(base, place=Place(latitude=45.9, longitude=170.5))
    assert (south.facts["season"].value, north.facts["season"].value) == ("spring", "autumn")


@given(
    st.dictionaries(
        st.text(max_size=8) | st.sampled_from(["medium", "night_low_c", "pest_signs", "stretched"]),
        st.one_of(
            st.booleans(),
            st.integers(),
            st.floats(allow_nan=False, allow_infinity=False),
            st.text(max_size=5),
            st.dates(),
        ),
        max_size=4,
    )
)
def test_any_answers_give_facts_of_the_registry_or_a_sentence(base, answers):
    gathered = facts(base, answers=answers)
    assert set(gathered.facts) <= set(base.vocabulary)
    assert all(problem.sentence() for problem in gathered.problems)


def test_an_answer_taken_back_leaves_what_the_journal_tells(base):
    told = {"neighbours_affected": "several_kinds"}
    answered = facts(base, answers={"neighbours_affected": "none"}, from_journal=told)
    alone = facts(base, from_journal=told)
    assert alone.facts["neighbours_affected"].is_told
    assert told_if(answered, base, {"neighbours_affected": None}) == told_if(alone, base, {})
