"""What the sky computation does to a ranking, as a grower would expect it, in both hemispheres."""

import datetime as dt

import pytest

from diagnose.case import Case, Place, Plant

DARK = {51.0: dt.date(2026, 12, 20), -45.9: dt.date(2026, 6, 20)}  # midwinter, north and south


def score(diagnostician, latitude, direction, date):
    answers = {
        "window_direction": direction,
        "window_width_cm": 120,
        "window_height_cm": 120,
        "distance_to_window_cm": 50,
        "grow_light": "none",
        "which_leaves": "oldest",
    }
    case = Case(
        date=date,
        plant=Plant(profile="alocasia"),
        place=Place(latitude=latitude, longitude=0.0),
        answers=answers,
    )
    diagnosis = diagnostician.diagnose(case)
    return diagnosis.ranking.of("energy_deficit").score_db, diagnosis.facts["dli_mol_m2_d"].value


@pytest.mark.parametrize(("latitude", "bright", "dim"), [(51.0, "south", "north"), (-45.9, "north", "south")])
def test_turning_the_window_to_the_sun_speaks_against_too_little_light(diagnostician, latitude, bright, dim):
    to_sun, sun_dli = score(diagnostician, latitude, bright, DARK[latitude])
    away, shade_dli = score(diagnostician, latitude, dim, DARK[latitude])
    assert sun_dli > shade_dli
    assert to_sun < away


@pytest.mark.parametrize("latitude", DARK)
def test_the_same_window_is_darker_in_midwinter(diagnostician, latitude):
    other = DARK[-45.9 if latitude > 0 else 51.0]
    assert (
        score(diagnostician, latitude, "east", DARK[latitude])[1]
        < score(diagnostician, latitude, "east", other)[1]
    )
    assert (
        score(diagnostician, latitude, "east", DARK[latitude])[0]
        > score(diagnostician, latitude, "east", other)[0]
    )


def test_measures_stand_in_the_chain_with_their_inputs_and_assumptions(diagnostician):
    from diagnose import locations
    from diagnose.casefile import read_case
    from diagnose.reasoning.chain import chain

    case, _ = read_case(locations.demo_cases() / "dim_corner_in_december.toml")
    diagnosis = diagnostician.diagnose(case)

    def walk(steps):
        for step in steps:
            yield step
            yield from walk(step.below)

    kinds = {
        step.kind
        for line in diagnosis.ranking.of("energy_deficit").lines
        for step in walk(chain(diagnosis.base, diagnosis.facts, diagnosis.firings, line))
    }
    assert kinds >= {"finding", "measure", "answer", "assumed"}
