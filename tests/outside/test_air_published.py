"""Air against FAO-56, psychrolib and published window data; the origin stands beside each value."""

import math

import psychrolib
import pytest

from diagnose.measures.air.glass import PANES, glass_temperature_c
from diagnose.measures.air.vapour import (
    air_pressure_kpa,
    dew_point_c,
    saturation_vapour_pressure_kpa,
    vapour_pressure_deficit_kpa,
    vapour_pressure_kpa,
)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


# FAO-56 Annex 2, table 2.3. 15, 18 and 25 were seen in print; the others follow from equation 11.
@pytest.mark.parametrize(
    ("temp_c", "kpa"),
    [
        (1, 0.657),
        (5, 0.872),
        (10, 1.228),
        (15, 1.705),
        (18, 2.064),
        (20, 2.338),
        (22, 2.644),
        (25, 3.168),
        (28, 3.780),
        (30, 4.243),
        (35, 5.623),
        (40, 7.376),
    ],
)
def test_fao_56_table_2_3(temp_c: float, kpa: float) -> None:
    assert saturation_vapour_pressure_kpa(temp_c) == pytest.approx(kpa, abs=0.0006)


def test_fao_56_example_2_pressure_and_psychrometric_constant_at_1800_m() -> None:  # A-07, p. 63
    assert air_pressure_kpa(1800) == pytest.approx(81.8, abs=0.05)
    assert 0.665e-3 * air_pressure_kpa(1800) == pytest.approx(0.054, abs=0.0005)


def test_fao_56_example_3_mean_of_a_swinging_day() -> None:
    # A-03, p. 69: 3.075 and 1.705, mean 2.39; at the mean 2.302
    hot, cold = saturation_vapour_pressure_kpa(24.5), saturation_vapour_pressure_kpa(15)
    assert hot == pytest.approx(3.075, abs=0.0006)
    assert cold == pytest.approx(1.705, abs=0.0006)
    assert (hot + cold) / 2 == pytest.approx(2.39, abs=0.005)
    assert saturation_vapour_pressure_kpa(19.75) == pytest.approx(2.302, abs=0.0006)


def test_fao_56_example_4_wet_and_dry_bulb() -> (
    None
):  # A-06, p. 70: 19.5 and 25.6 °C at 87.9 kPa, aspirated: 1.91
    wet = saturation_vapour_pressure_kpa(19.5) - 0.000662 * 87.9 * (25.6 - 19.5)
    assert wet == pytest.approx(1.91, abs=0.005)


def test_fao_56_example_5_vapour_from_humidity_extremes() -> None:  # A-04, p. 72
    at_night, by_day = vapour_pressure_kpa(18, 82), vapour_pressure_kpa(25, 54)
    assert (at_night + by_day) / 2 == pytest.approx(1.70, abs=0.005)
    assert at_night == pytest.approx(1.69, abs=0.005)
    mean = (saturation_vapour_pressure_kpa(18) + saturation_vapour_pressure_kpa(25)) / 2
    assert mean * 0.68 == pytest.approx(1.78, abs=0.005)
    assert mean - (at_night + by_day) / 2 == pytest.approx(0.914, abs=0.002)  # A-05, by difference


# Deficits of usual rooms and of a leaf 2 K cooler than the air, worked from equation 11.
@pytest.mark.parametrize(
    ("temp_c", "humidity", "kpa"),
    [
        (20, 40, 1.40),
        (22, 40, 1.59),
        (22, 60, 1.06),
        (25, 50, 1.58),
        (25, 70, 0.95),
        (25, 80, 0.63),
        (18, 60, 0.83),
        (28, 70, 1.13),
    ],
)
def test_deficits_of_usual_rooms_and_psychrolib(temp_c: float, humidity: float, kpa: float) -> None:
    deficit = vapour_pressure_deficit_kpa(temp_c, vapour_pressure_kpa(temp_c, humidity))
    assert deficit == pytest.approx(kpa, abs=0.006)
    psychrolib.SetUnitSystem(psychrolib.SI)  # ASHRAE Fundamentals, an independent formula
    theirs = (
        psychrolib.GetSatVapPres(temp_c) - psychrolib.GetVapPresFromRelHum(temp_c, humidity / 100)
    ) / 1000
    assert deficit == pytest.approx(theirs, rel=0.002)


def test_a_cooler_leaf_dries_less() -> None:
    assert vapour_pressure_deficit_kpa(23, vapour_pressure_kpa(25, 50)) == pytest.approx(1.23, abs=0.006)


# A-10, and psychrolib (ASHRAE Fundamentals) beside it.
@pytest.mark.parametrize(
    ("temp_c", "humidity", "dew"), [(21, 50, 10.2), (20, 40, 6.0), (22, 60, 13.9), (25, 70, 19.2)]
)
def test_dew_points_and_psychrolib(temp_c: float, humidity: float, dew: float) -> None:
    ours = dew_point_c(vapour_pressure_kpa(temp_c, humidity))
    assert ours == pytest.approx(dew, abs=0.06)  # the value was rounded from psychrolib's own formula
    psychrolib.SetUnitSystem(psychrolib.SI)
    assert ours == pytest.approx(psychrolib.GetTDewPointFromRelHum(temp_c, humidity / 100), abs=0.03)


@pytest.mark.parametrize("temp_c", range(0, 51, 5))
def test_saturation_agrees_with_psychrolib_over_the_range_of_rooms(temp_c: int) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    theirs = psychrolib.GetSatVapPres(temp_c) / 1000
    assert saturation_vapour_pressure_kpa(temp_c) == pytest.approx(theirs, rel=0.002)


def test_air_holds_about_twice_the_water_11_k_warmer() -> None:
    # doubles about every 20 °F; 16 to 27 °C, x 1.96
    ratio = saturation_vapour_pressure_kpa(27) / saturation_vapour_pressure_kpa(16)
    assert ratio == pytest.approx(1.96, abs=0.005)


def test_single_glass_is_wet_from_6_c_outdoors() -> None:
    # The Engineering ToolBox, "Windows: inside condensation": 18.3 °C and 50 % inside, single glass of 6
    # W/m²K: water condenses from 6 °C outdoors down (read from a chart, so to about 2 K).
    dew = dew_point_c(vapour_pressure_kpa(18.3, 50))
    outdoors = next(t / 10 for t in range(180, -300, -1) if glass_temperature_c(18.3, t / 10, 6.0) <= dew)
    assert outdoors == pytest.approx(6, abs=2)


def test_clear_double_glass_is_wet_from_0_f_outdoors() -> None:
    # Green Building Advisor, "How do I calculate the interior temperature of a window": 70 °F and 40 %
    # inside, clear double pane without argon: visible condensation from about 0 °F outdoors.
    dew = dew_point_c(vapour_pressure_kpa(celsius(70), 40))
    u = PANES["double"].u_w_m2k
    outdoors = next(
        t / 10 for t in range(180, -400, -1) if glass_temperature_c(celsius(70), t / 10, u) <= dew
    )
    assert outdoors == pytest.approx(celsius(0), abs=3)


def test_panes_against_resistances_in_series() -> None:
    # Energy management handbook, section 9.6.1: 0.85, 1.85, 2.85 h·ft²·°F/Btu for one, two, three clear
    # panes.
    to_si = 0.1761  # m²K/W for 1 h·ft²·°F/Btu
    for glazing, resistance in (("single", 0.85), ("double", 1.85), ("triple", 2.85)):
        assert PANES[glazing].worst == pytest.approx(1 / (resistance * to_si), abs=0.05)


def test_glass_at_10_c_is_at_the_dew_point_of_a_usual_room() -> None:  # 21 °C and 50 %
    assert math.isclose(dew_point_c(vapour_pressure_kpa(21, 50)), 10, abs_tol=0.3)
