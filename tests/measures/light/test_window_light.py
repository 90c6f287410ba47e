"""How the light at a leaf moves with window, distance, skyline, hemisphere and sunshine."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from diagnose.measures.light.indoor import _at_leaf, window_year
from diagnose.measures.light.opening import FACING_DEG, Opening
from diagnose.measures.light.sky import clear_sky
from diagnose.measures.light.window import sky_factor, sun_in_opening

PLACES = [(54.0, 10.0), (-34.0, 151.0), (2.0, 102.0), (69.6, 19.0)]
facings = st.sampled_from([*FACING_DEG.values(), None])
metres = st.floats(0.05, 15)
openings = st.builds(
    Opening,
    facing_deg=facings,
    distance_m=st.floats(0, 15),
    width_m=metres,
    height_m=st.floats(0.05, 6),
    sill_m=st.floats(-2, 4),
    offset_m=st.floats(0, 8),
    passes=st.floats(0, 0.9),
    scatters=st.booleans(),
    obstruction_deg=st.floats(0, 90),
)
places = st.sampled_from(PLACES)
SLACK = 1e-9


def year(place: tuple[float, float], opening: Opening) -> np.ndarray:
    return np.array(window_year(*place, 0.0, opening))


def at_most(lesser: np.ndarray, greater: np.ndarray) -> bool:
    return bool(np.all(lesser <= greater * (1 + 1e-3) + SLACK))  # the integration grid is good to that


@given(places, openings)
def test_light_is_a_number_in_order_and_never_negative(place: tuple[float, float], opening: Opening) -> None:
    light = year(place, opening)
    assert light.shape == (12, 3)
    assert np.all(np.isfinite(light))
    assert np.all(light >= 0)
    assert np.all(np.diff(light, axis=1) >= -SLACK)
    assert (
        light.max() < 80
    )  # no room is brighter than the open sky, 60 mol on the best days (L-25), and its spread


@given(places, openings, st.floats(1, 3), st.floats(1, 3))
def test_a_larger_window_never_takes_light_away(
    place: tuple[float, float], opening: Opening, wider: float, taller: float
) -> None:
    # grown about its middle sideways; upwards from its sill in a wall, about its middle in a roof
    larger = dataclasses.replace(opening, width_m=opening.width_m * wider, height_m=opening.height_m * taller)
    assert at_most(year(place, opening), year(place, larger))


@given(places, openings, st.floats(0, 90))
def test_a_higher_skyline_never_adds_light(
    place: tuple[float, float], opening: Opening, skyline: float
) -> None:
    assume(skyline >= opening.obstruction_deg)
    assert at_most(year(place, dataclasses.replace(opening, obstruction_deg=skyline)), year(place, opening))


@given(places, openings, st.floats(0, 1))
def test_darker_glass_never_adds_light(place: tuple[float, float], opening: Opening, share: float) -> None:
    dimmed = dataclasses.replace(opening, passes=opening.passes * share)
    assert at_most(year(place, dimmed), year(place, opening))


@given(places, openings, st.floats(0, 10), st.floats(0, 1), st.floats(-2, -0.15))
def test_farther_from_a_window_one_stands_before_is_never_brighter(
    place: tuple[float, float], opening: Opening, farther: float, aside: float, sill: float
) -> None:
    """Domain: sill no higher than the lowest leaf (15 cm below the middle), all leaves before the glass.

    Elsewhere the opposite can be true: under a high sill, or aside of the window, a step back shows more sky.
    """
    near = dataclasses.replace(
        opening,
        facing_deg=180.0 if opening.facing_deg is None else opening.facing_deg,
        offset_m=aside * opening.width_m / 2,
        sill_m=sill,
        height_m=opening.height_m + 2.2,
        distance_m=max(0.2, opening.distance_m),
    )
    far = dataclasses.replace(near, distance_m=near.distance_m + farther)
    assert at_most(year(place, far), year(place, near))


def test_a_step_back_from_under_a_high_sill_shows_more_sky() -> None:
    under = Opening(0.0, 0.3, sill_m=1.5)
    assert sky_factor(under, True, False) < sky_factor(
        dataclasses.replace(under, distance_m=1.0), True, False
    )


def test_the_bright_window_is_the_one_towards_the_equator() -> None:
    winters = {54.0: [9, 10, 11, 0, 1, 2], -34.0: [3, 4, 5, 6, 7, 8]}
    for place, bright, dim in ((PLACES[0], 180.0, 0.0), (PLACES[1], 0.0, 180.0)):
        towards, away = (year(place, Opening(facing, 0.5))[:, 1] for facing in (bright, dim))
        winter = winters[place[0]]
        assert np.all(towards[winter] > 1.15 * away[winter])
        assert towards.sum() > 3 * away.sum()


def test_hemispheres_mirror_each_other() -> None:
    north, south = (
        dataclasses.replace(
            sky,
            beam_w_m2=np.full_like(sky.elevation_rad, 500.0),
            around_sun_w_m2=np.zeros_like(sky.elevation_rad),
            blue_w_m2=100 * np.sin(sky.elevation_rad),
        )
        for sky in (clear_sky(50.0, 10.0), clear_sky(-50.0, 10.0))
    )
    in_north = _at_leaf(north, Opening(180.0, 0.8, sill_m=-0.2))[0]
    in_south = np.roll(_at_leaf(south, Opening(0.0, 0.8, sill_m=-0.2))[0], 6)
    # Mean days half a year apart differ by up to 1.2 degrees of declination
    assert in_north == pytest.approx(in_south, rel=0.25)
    assert in_north.sum() == pytest.approx(in_south.sum(), rel=0.05)


def test_east_has_the_morning_sun_and_west_the_evening_sun() -> None:
    sky = clear_sky(50.0, 10.0)
    morning = sky.azimuth_rad < math.pi
    window = Opening(90.0, 0.5, 3.0, 3.0, -1.0)
    in_east = sun_in_opening(window, sky.elevation_rad, sky.azimuth_rad)
    in_west = sun_in_opening(
        dataclasses.replace(window, facing_deg=270.0), sky.elevation_rad, sky.azimuth_rad
    )
    assert in_east[morning].sum() > 100
    assert in_east[~morning].sum() == 0
    assert in_west[morning].sum() == 0


def test_the_sun_behind_houses_does_not_shine_in() -> None:
    sky = clear_sky(50.0, 10.0)
    open_view = Opening(180.0, 0.5, 3.0, 3.0, -1.0)
    walled = dataclasses.replace(open_view, obstruction_deg=30.0)
    behind = sky.elevation_rad <= math.radians(30)
    before, after = (
        sun_in_opening(window, sky.elevation_rad, sky.azimuth_rad) for window in (open_view, walled)
    )
    assert before[behind].sum() > 100
    assert after[behind].sum() == 0
    assert after[~behind] == pytest.approx(before[~behind])


def test_polar_night_is_dark_and_the_midnight_sun_is_not() -> None:
    light = year((78.2, 15.6), Opening(180.0, 1.0))
    assert np.all(light[[11, 0]] == 0)
    assert np.all(light[[4, 5, 6]] > 0.5)


def test_frosted_glass_spreads_the_sun_and_keeps_the_skys_share() -> None:
    clear, frosted = (year(PLACES[0], Opening(180.0, 1.0, scatters=scatters)) for scatters in (False, True))
    assert frosted[3, 1] < clear[3, 1]  # April sun no longer falls straight on the leaf
    assert frosted[5, 1] > clear[5, 1]  # June sun, too high to fall in, is spread to it


@settings(max_examples=30)
@given(st.floats(-90, 90), st.floats(-180, 180), st.floats(-400, 6000))
def test_any_place_on_earth_has_a_sky(latitude: float, longitude: float, elevation_m: float) -> None:
    light = np.array(window_year(latitude, longitude, elevation_m, Opening(90.0, 1.0)))
    assert np.all(np.isfinite(light))
    assert np.all(light >= 0)
