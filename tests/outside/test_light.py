"""Light and season against published values: source, table or example and tolerance stand beside each.

Ids L-.. point into the project's page of sources.
"""

import math
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from diagnose.measures import season
from diagnose.measures.light import climate, convert, lamp, opening
from diagnose.measures.light.climate import extraterrestrial_mj_m2_d, global_mj_m2_d
from diagnose.measures.light.indoor import DIFFUSE_LOSS, DULL_TO_CLEAR, _thrown_about, window_year
from diagnose.measures.light.opening import Opening, share_passed
from diagnose.measures.light.sky import clear_sky
from diagnose.measures.light.window import angular_loss, sky_factor, sky_on_glass

# --- Sun: Allen, Pereira, Raes, Smith 1998, FAO Irrigation and Drainage Paper 56 ---


def test_fao56_example_8_sun_at_20_south_on_3_september() -> None:
    # p. 80 (L-01); the book prints three digits
    assert season.declination_rad(246) == pytest.approx(0.120, abs=0.0005)
    assert season.sunset_angle_rad(-20, 246) == pytest.approx(1.527, abs=0.0005)
    assert extraterrestrial_mj_m2_d(-20, 246) == pytest.approx(32.2, abs=0.05)


def test_fao56_example_9_hours_of_daylight() -> None:
    assert season.day_length_h(-20, 246) == pytest.approx(11.7, abs=0.05)  # p. 83 (L-02)


def test_fao56_example_10_radiation_from_sunshine_in_rio() -> None:
    # p. 84 (L-03): 22.9 S, 15 May, 7.1 of 10.9 h; the book rounds 14.45 to 14.5
    assert extraterrestrial_mj_m2_d(-22.9, 135) == pytest.approx(25.1, abs=0.05)
    assert season.day_length_h(-22.9, 135) == pytest.approx(10.9, abs=0.05)
    assert global_mj_m2_d(-22.9, 135, 7.1 / 10.9) == pytest.approx(14.45, abs=0.05)


def test_fao56_example_11_clear_day() -> None:
    assert global_mj_m2_d(-22.9, 135, 1.0) == pytest.approx(18.8, abs=0.05)  # p. 87 (L-04)


def test_fao56_example_18_clear_day() -> None:
    # p. 115 (L-05): Rso = (0.75 + 2e-5 x 100 m) x 41.09 = 30.90; without the height 0.3 % less
    assert pytest.approx(30.90, rel=0.004) == 41.09 * (climate.ANGSTROM_DULL + climate.ANGSTROM_SUNNY)


def test_polar_night_has_no_light() -> None:
    # L-09, NCL radext_fao56: inside the polar night the value is to be taken as 0
    assert extraterrestrial_mj_m2_d(75, 355) == pytest.approx(0, abs=1e-9)
    assert season.day_length_h(75, 355) == 0
    assert season.day_length_h(75, 172) == 24


# --- Sun's position: Reda & Andreas 2004, Solar Energy 76:577-589 ---


def test_nrel_sun_position_example() -> None:
    # The paper's example: 17 October 2003, 12:30:30 at UTC-7, zenith 50.11162 and azimuth 194.34024 degrees
    from pvlib import solarposition

    moment = pd.DatetimeIndex(["2003-10-17 12:30:30-07:00"])
    found = solarposition.spa_python(
        moment, 39.742476, -105.1786, altitude=1830.14, pressure=82000, temperature=11, delta_t=67
    )
    assert found["apparent_zenith"].iloc[0] == pytest.approx(50.11162, abs=1e-4)
    assert found["azimuth"].iloc[0] == pytest.approx(194.34024, abs=1e-4)


def test_declination_in_the_nrel_example() -> None:
    # Same example, declination -9.31434 degrees; FAO-56's formula of one term is off by a degree here
    assert math.degrees(season.declination_rad(290)) == pytest.approx(-9.31, abs=1.2)


@pytest.mark.parametrize(
    ("latitude", "month", "azimuth_deg"), [(54, 11, 180), (-34, 5, 0), (10, 5, 0), (-10, 11, 180)]
)
def test_noon_sun_stands_where_geometry_puts_it(latitude: float, month: int, azimuth_deg: float) -> None:
    # Height at noon = 90 - |latitude - declination|; a degree for step, refraction and FAO-56
    sky = clear_sky(float(latitude), 10.0)
    at = sky.month == month
    noon = np.argmax(sky.elevation_rad[at])
    declination = math.degrees(season.declination_rad(climate.MEAN_DAYS[month]))
    assert math.degrees(sky.elevation_rad[at][noon]) == pytest.approx(90 - abs(latitude - declination), abs=1)
    assert math.cos(sky.azimuth_rad[at][noon] - math.radians(azimuth_deg)) > math.cos(math.radians(8))


# --- Units ---


def test_dli_from_photon_flux() -> None:
    assert convert.dli_from_ppfd(1, 24) == pytest.approx(0.0864)  # L-11, exact
    # L-12: Runkle, Lighting plants indoors, Greenhouse Product News: 12 mol in 18 h need 185 µmol
    assert convert.dli_from_ppfd(185, 18) == pytest.approx(12, rel=0.005)


def test_dli_from_solar_energy() -> None:
    # L-13: Faust & Logan 2018: 45 % PAR, 4.48 µmol/J; 0.1 % between printed factor and product
    assert convert.dli_from_energy(1000) == pytest.approx(0.45 * 4.48 * 3.6, rel=0.0015)
    assert convert.dli_from_energy(1000 / 3.6) == pytest.approx(2.018, rel=0.0005)


@pytest.mark.parametrize(
    ("source", "umol_per_lux"),
    [("daylight", 0.0185), ("fluorescent", 0.0135), ("high_pressure_sodium", 0.0122)],
)
def test_photons_per_lux(source: str, umol_per_lux: float) -> None:
    # L-18: an instrument maker's table after Thimijan & Heins 1983; three digits
    assert convert.ppfd_from_reading(1, "lux", source) == pytest.approx(umol_per_lux, rel=0.005)


def test_full_sun_in_lux() -> None:
    # L-19: 2000 µmol of sunlight are 108 000 lux, 10 020 foot-candles
    assert convert.ppfd_from_reading(108_000, "lux", "daylight") == pytest.approx(2000)
    assert convert.ppfd_from_reading(10_020, "foot_candle", "daylight") == pytest.approx(2000, rel=0.002)


@pytest.mark.parametrize(
    ("source", "foot_candles"),
    [("daylight", 5.01), ("fluorescent", 6.87), ("high_pressure_sodium", 7.62)],
)
def test_foot_candles_per_photon_flux(source: str, foot_candles: float) -> None:
    # L-20, same maker; three digits
    assert convert.ppfd_from_reading(foot_candles, "foot_candle", source) == pytest.approx(1, rel=0.003)


@pytest.mark.parametrize(
    ("source", "umol_per_fc"),
    [("daylight", 0.195), ("fluorescent", 0.137), ("high_pressure_sodium", 0.129)],
)
def test_another_set_of_foot_candle_factors(source: str, umol_per_fc: float) -> None:
    # L-21: a photobiologist's set of 2001, up to 7 % from L-20: the honest spread of such factors
    assert convert.ppfd_from_reading(1, "foot_candle", source) == pytest.approx(umol_per_fc, rel=0.07)


def test_foot_candle() -> None:
    assert pytest.approx(10.76391, abs=0.0005) == convert.LUX_PER_FOOT_CANDLE  # L-22, ASTM SI practice 1989


def test_purdue_foot_candle_method() -> None:
    # L-24: Torres & Lopez, Purdue HO-238-W, from memory: a day's mean of 239 fc of sun is 4.1 mol
    ppfd = convert.ppfd_from_reading(239, "foot_candle", "daylight")
    assert convert.dli_from_ppfd(ppfd, 24) == pytest.approx(4.1, abs=0.05)


def test_white_led_lies_in_its_band() -> None:
    assert 60 <= convert.LUX_PER_PPFD["led"] <= 75  # L-23, from memory


# --- Windows ---


def beside(width: float, height: float) -> Opening:
    """Return a window 1 m away with its sill level and one jamb in line with the point."""
    return Opening(0.0, 1.0, width, height, offset_m=width / 2)


@pytest.mark.parametrize(("size", "percent"), [(1, 5.573), (0.5, 1.393), (1e4, 25)])
def test_sky_factor_under_an_even_sky(size: float, percent: float) -> None:
    # L-34: Tregenza & Sharples 1993, algorithm 2.31, closed form; the last case runs to the horizon
    assert 100 * sky_factor(beside(size, size), False, False) == pytest.approx(percent, abs=0.005)


@pytest.mark.parametrize(("width", "height"), [(0.3, 2.0), (1.7, 0.4), (5.0, 1.0)])
def test_sky_factor_against_the_closed_form(width: float, height: float) -> None:
    # L-34, the formula itself
    slant = math.hypot(1, height)
    closed = (math.atan(width) - math.atan(width / slant) / slant) / (2 * math.pi)
    assert sky_factor(beside(width, height), False, False) == pytest.approx(closed, rel=1e-9)


@pytest.mark.parametrize(("size", "percent"), [(1, 4.525), (0.5, 0.943), (1e4, 25)])
def test_sky_factor_under_the_cie_overcast_sky(size: float, percent: float) -> None:
    # L-35: same, algorithm 2.32 after Walsh 1961
    assert 100 * sky_factor(beside(size, size), True, False) == pytest.approx(percent, abs=0.005)


BRS = {
    0.3: {0.5: 0.5, 0.7: 1.0, 0.9: 1.5, 1.0: 1.7, 1.2: 2.1, 1.5: 2.6, 2.0: 3.1},
    0.2: {1.0: 1.1, 2.0: 2.0},
    0.5: {1.0: 2.6, 1.5: 4.0},
    1.0: {0.6: 1.8, 0.8: 2.9, 1.0: 4.0, 1.2: 5.0, 1.5: 6.2},
}


@pytest.mark.parametrize(
    ("width", "height", "percent"),
    [(width, height, percent) for width, row in BRS.items() for height, percent in row.items()],
)
def test_sky_component_of_the_building_research_station(width: float, height: float, percent: float) -> None:
    # L-36: simplified daylight table, CIE overcast, glass of 0.90; printed to 0.1, within 0.14 by L-36b
    found = 100 * opening.GLASS["single"] * sky_factor(beside(width, height), True, True)
    assert found == pytest.approx(percent, abs=0.15)


def test_roof_window_against_the_closed_form() -> None:
    # Parallel rectangle over a small element, a corner above it (textbook formula of configuration factors)
    x, y = 0.6, 0.35
    corner = x / math.hypot(1, x) * math.atan(y / math.hypot(1, x))
    corner += y / math.hypot(1, y) * math.atan(x / math.hypot(1, y))
    found = sky_factor(Opening(None, 1.0, 2 * x, 2 * y), False, False)
    assert found == pytest.approx(4 * corner / (2 * math.pi), rel=1e-9)


def test_overcast_sky_on_a_wall() -> None:
    # The split-flux formula's 39 % for an open wall, and half of an even sky
    assert 100 * sky_on_glass(Opening(0.0, 1.0), overcast=True) == pytest.approx(39, abs=1)
    assert sky_on_glass(Opening(0.0, 1.0), overcast=False) == pytest.approx(0.5)


def test_light_thrown_about_a_room_is_that_of_the_split_flux_formula() -> None:
    # Building Research Station: mean internally reflected component, 0.85 W (C Rfw + 5 Rcw) / (A (1 - R)),
    # in percent; 0.85 for the glass, C = 39 for an open wall; here W 2 m², A 80 m², Rfw 0.3, Rcw 0.5, R 0.4
    published = 0.85 * 2 * (39 * 0.3 + 5 * 0.5) / (80 * (1 - 0.4))
    window = Opening(0.0, 1.0, 2.0, 1.0, passes=0.85 / DIFFUSE_LOSS)
    found = _thrown_about(window, np.array([39.0]), np.array([100.0]))
    assert float(found[0]) == pytest.approx(published, rel=1e-6)


def test_sky_on_a_wall_agrees_with_pvlib() -> None:
    from pvlib import irradiance

    assert sky_on_glass(Opening(0.0, 1.0), False) == pytest.approx(float(irradiance.isotropic(90, 1.0)))


def test_diffuse_light_through_glass() -> None:
    # L-32: daylight practice takes 0.8 for clear single glass and 0.7 for double
    assert opening.GLASS["single"] * DIFFUSE_LOSS == pytest.approx(0.8, abs=0.02)
    assert opening.GLASS["double"] * DIFFUSE_LOSS == pytest.approx(0.7, abs=0.02)
    # and it is what the loss by angle comes to over all directions
    cosine = np.linspace(0, 1, 10_001)
    assert 2 * np.trapezoid(angular_loss(cosine) * cosine, cosine) == pytest.approx(DIFFUSE_LOSS, abs=0.005)


@pytest.mark.parametrize(
    ("glazing", "transmittance"), [("single", 0.90), ("double", 0.81), ("coated", 0.72), ("tinted", 0.61)]
)
def test_glass(glazing: str, transmittance: float) -> None:
    assert opening.GLASS[glazing] == transmittance  # L-30, handbook table, centre of glass


# --- Light through the year ---


def outdoors_kwh_m2_d(latitude: float, longitude: float, elevation_m: float) -> list[float]:
    sky = clear_sky(latitude, longitude, elevation_m)
    clear = sky.daily(sky.beam_w_m2 * np.sin(sky.elevation_rad) + sky.around_sun_w_m2 + sky.blue_w_m2) / 1000
    shares = climate.sunshine_shares(latitude, longitude)
    return [
        float(energy) * (share.expected + (1 - share.expected) * DULL_TO_CLEAR)
        for energy, share in zip(clear, shares, strict=True)
    ]


def typical_year(file: str) -> list[float]:
    """Return the mean daily energy of each month in kWh/m²/d from a typical-year file that pvlib ships."""
    import pvlib

    path = Path(pvlib.__file__).parent / "data" / file
    rows = pd.read_csv(path, skiprows=1, usecols=["Date (MM/DD/YYYY)", "GHI (W/m^2)"])
    month = rows["Date (MM/DD/YYYY)"].str[:2].astype(int)
    energy = rows["GHI (W/m^2)"].groupby(month).sum() / 1000
    return [float(energy[m]) / climate.MONTH_DAYS[m - 1] for m in range(1, 13)]


GREENSBORO = [2.414, 3.063, 4.251, 5.410, 5.636, 6.251, 6.083, 5.615, 4.427, 3.589, 2.435, 2.243]  # L-40
SAND_POINT = [0.583, 1.047, 1.853, 3.058, 3.278, 3.806, 5.005, 2.704, 3.041, 1.614, 0.743, 0.462]  # L-43


def test_typical_years_are_those_of_the_source_page() -> None:
    # US National Renewable Energy Laboratory, TMY3 stations 723170 and 703165
    assert typical_year("723170TYA.CSV") == pytest.approx(GREENSBORO, abs=0.001)
    assert typical_year("703165TY.csv") == pytest.approx(SAND_POINT, abs=0.001)


def test_outdoor_light_in_greensboro() -> None:
    # L-40: each month within 15 %, the year within 5 %; its only inputs: position, sunshine of cities around
    found = outdoors_kwh_m2_d(36.1, -79.95, 273.0)
    assert found == pytest.approx(GREENSBORO, rel=0.15)
    assert sum(found) == pytest.approx(sum(GREENSBORO), rel=0.05)


def test_outdoor_dli_in_greensboro_after_fao56() -> None:
    # L-41: the same as DLI by FAO-56 alone, which has no turbidity: each month within 16 %
    published = [17.5, 22.3, 30.9, 39.3, 41.0, 45.4, 44.2, 40.8, 32.2, 26.1, 17.7, 16.3]
    found = [month.expected for month in climate.outdoor_year(36.1, -79.95)]
    assert found == pytest.approx(published, rel=0.16)


def test_outdoor_light_on_a_fog_coast_far_from_any_city_of_the_table() -> None:
    # L-43: Sand Point, Alaska, 800 km from the nearest row: months within 1.6 times, the year within 1.25
    found = outdoors_kwh_m2_d(55.3, -160.5, 7.0)
    ratios = [ours / theirs for ours, theirs in zip(found, SAND_POINT, strict=True)]
    assert max(ratios) < 1.6
    assert min(ratios) > 1 / 1.6
    assert sum(found) / sum(SAND_POINT) < 1.25


def test_outdoor_light_in_the_low_countries() -> None:
    # L-46, from memory: 52 N has 4 to 5 mol in December and 35 to 40 in June
    year = climate.outdoor_year(52.0, 5.0)
    assert 4 <= year[11].expected <= 5
    assert 35 <= year[5].expected <= 40


@pytest.mark.parametrize(
    ("facing_deg", "distance_m", "foot_candles"),
    [
        (180.0, 0.3, 1500),  # direct: south window at the glass
        (180.0, 1.5, 300),  # high: south window up to 5 ft
        (180.0, 2.0, 150),  # medium: south window 3 to 10 ft
        (180.0, 5.3, 75),  # low: south window 15 to 20 ft
        (0.0, 0.3, 150),  # medium: north window at the glass
        (0.0, 0.9, 75),  # low: north window a few feet away
        (90.0, 1.0, 150),  # medium: east or west window a few feet away
    ],
)
def test_indoor_light_classes_of_illinois(facing_deg: float, distance_m: float, foot_candles: float) -> None:
    # L-52: University of Illinois Extension, Houseplants: proper light; no window size or hours given, so a
    # window of 1.5 by 1.5 m from 30 cm below the leaf, 8 h a day, and a factor of 4 either way
    window = Opening(facing_deg, distance_m, 1.5, 1.5, -0.3, passes=share_passed("double", "none"))
    mean = sum(month.expected for month in window_year(40.1, -88.2, 0.0, window)) / 12
    published = convert.dli_from_ppfd(convert.ppfd_from_reading(foot_candles, "foot_candle", "daylight"), 8)
    assert published / 4 < mean < published * 4


# --- Lamps ---


def test_a_far_lamp_follows_the_inverse_square_law() -> None:
    assert lamp.ppfd_from_watts(20, 4.0) == pytest.approx(lamp.ppfd_from_watts(20, 2.0) / 4, rel=0.01)


def test_a_lamp_close_by_gives_no_more_than_its_own_face() -> None:
    # The flux leaving a disc of 30 cm: 20 W x 1.5 µmol/J over its area
    assert lamp.ppfd_from_watts(20, 0.0) == pytest.approx(20 * 1.5 / (math.pi * 0.15**2))
