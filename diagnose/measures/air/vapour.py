"""Water vapour in air: saturation, deficit and dew point, by FAO-56 (Allen et al. 1998), chapter 3."""

import math

# FAO-56 equation 11 (after Tetens and Murray): e = A exp(B T / (T + C)).
_A_KPA, _B, _C_K = 0.6108, 17.27, 237.3


def saturation_vapour_pressure_kpa(temp_c: float) -> float:
    """Return the vapour pressure of saturated air in kPa at `temp_c` in °C (FAO-56 equation 11; A-01)."""
    return _A_KPA * math.exp(_B * temp_c / (temp_c + _C_K))


def vapour_pressure_kpa(temp_c: float, humidity_percent: float) -> float:
    """Return the vapour pressure in kPa of air at `temp_c` in °C and a relative humidity in %."""
    return saturation_vapour_pressure_kpa(temp_c) * humidity_percent / 100


def vapour_pressure_deficit_kpa(leaf_c: float, vapour_kpa: float) -> float:
    """Return how far air, in kPa, is from saturation at the leaf's temperature in °C; never below 0."""
    return max(0.0, saturation_vapour_pressure_kpa(leaf_c) - vapour_kpa)


def dew_point_c(vapour_kpa: float) -> float:
    """Return the temperature in °C at which this vapour pressure in kPa is saturation (inverse of A-01).

    Raises ValueError for a pressure that is not above zero.
    """
    ratio = math.log(vapour_kpa / _A_KPA)
    return _C_K * ratio / (_B - ratio)


def air_pressure_kpa(elevation_m: float) -> float:
    """Return the mean air pressure in kPa at a height in metres above the sea (FAO-56 equation 7; A-07)."""
    return 101.3 * math.pow((293 - 0.0065 * elevation_m) / 293, 5.26)
