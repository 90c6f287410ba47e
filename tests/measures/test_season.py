import datetime as dt
import math
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.case import Case, Place
from diagnose.measures import season
from diagnose.measures.measure import Given, Measure
from legal_answers import check_contract

latitudes = st.floats(-90, 90)
days = st.integers(1, 365)
dates = st.dates(dt.date(2000, 1, 1), dt.date(2060, 12, 31))


def measured(date: dt.date, place: Place) -> dict[str, Measure]:
    return {each.name: each for each in season.measure(Given(Case(date=date, place=place), {}))}


@pytest.mark.parametrize(
    ("month", "north", "south"),
    [(1, "winter", "summer"), (4, "spring", "autumn"), (7, "summer", "winter"), (10, "autumn", "spring")],
)
def test_seasons_swap_across_the_equator(month: int, north: str, south: str) -> None:
    date = dt.date(2026, month, 15)
    assert season.season(54, date) == north
    assert season.season(-34, date) == south


def test_december_begins_the_northern_winter_and_march_ends_it() -> None:
    assert season.season(54, dt.date(2026, 11, 30)) == "autumn"
    assert season.season(54, dt.date(2026, 12, 1)) == "winter"
    assert season.season(54, dt.date(2026, 2, 28)) == "winter"
    assert season.season(54, dt.date(2026, 3, 1)) == "spring"


def test_without_a_place_nothing_is_said() -> None:
    assert measured(dt.date(2026, 1, 15), Place()) == {}
    assert measured(dt.date(2026, 1, 15), Place(city="Nowhere-at-all")) == {}


def test_near_the_equator_there_is_day_length_but_no_season() -> None:
    found = measured(dt.date(2026, 1, 15), Place(latitude=1.3))
    assert set(found) == {"day_length_h", "day_length_trend"}
    assert found["day_length_trend"].value == "steady"


def test_a_city_serves_as_well_as_coordinates() -> None:
    found = measured(dt.date(2026, 12, 3), Place(city="Hamburg"))
    assert found["season"].value == "winter"
    assert found["day_length_trend"].value == "shortening"
    assert found["day_length_h"].value == pytest.approx(7.5, abs=0.1)
    assert found["season"].used == ("place", "date")


def test_days_stand_still_at_the_solstice_and_grow_after_it() -> None:
    assert season.day_length_trend(54, 355) == "steady"
    assert season.day_length_trend(54, 31) == "lengthening"
    assert season.day_length_trend(-34, 31) == "shortening"


@given(dates, latitudes)
def test_any_date_and_latitude_keep_the_contract(date: dt.date, latitude: float) -> None:
    check_contract(measured(date, Place(latitude=latitude)), season)


@given(latitudes, days)
def test_day_and_night_swap_across_the_equator(latitude: float, day: int) -> None:
    both = season.day_length_h(latitude, day) + season.day_length_h(-latitude, day)
    assert math.isclose(both, 24, abs_tol=1e-6)


def test_season_loads_no_heavy_library() -> None:
    code = (
        "import sys, datetime; from diagnose.case import Case, Place; from diagnose.measures import season;"
        "from diagnose.measures.measure import Given;"
        "list(season.measure(Given(Case(date=datetime.date(2026, 1, 1), place=Place(latitude=50)), {})));"
        "print([m for m in ('numpy', 'scipy', 'pandas', 'pvlib') if m in sys.modules])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
