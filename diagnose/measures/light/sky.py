"""Sun and clear sky on the mean day of each month (pvlib).

Position: NREL solar position algorithm, Reda & Andreas 2004, Solar Energy 76:577-589. Clear sky: Ineichen &
Perez 2002, Solar Energy 73:151-157, with the monthly Linke turbidity of the world that pvlib ships (SoDa).
Azimuth 0 is north, east positive. Times run through one solar day, so the longitude serves the turbidity
alone.
"""

import functools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.measures.light.climate import MEAN_DAYS

Array = NDArray[np.float64]

STEP_MIN = 10
YEAR = np.datetime64("2025-01-01", "D")  # any common year serves for mean days


@dataclass(frozen=True)
class Sky:
    """The moments of twelve mean days with the sun up, and the clear sky at each."""

    month: NDArray[np.intp]
    elevation_rad: Array
    azimuth_rad: Array
    beam_w_m2: Array
    """On a plane facing the sun."""
    around_sun_w_m2: Array
    """On level ground, from the bright sky around the sun: it comes as the beam does (Hay & Davies 1980)."""
    blue_w_m2: Array
    """On level ground, from the rest of the clear sky, even all over."""

    def daily(self, power_w_m2: Array) -> Array:
        """Return a power at these moments as energy in Wh/m²/d for each of the twelve months."""
        return np.asarray(np.bincount(self.month, power_w_m2, minlength=12) * (STEP_MIN / 60), np.float64)


@functools.lru_cache(maxsize=64)
def clear_sky(latitude: float, longitude: float, elevation_m: float = 0.0) -> Sky:
    """Return the sun's course and the clear sky through the year at a place."""
    import pandas as pd  # noqa: PLC0415
    from pvlib import atmosphere, clearsky, irradiance, solarposition  # noqa: PLC0415

    mean_days = np.array(MEAN_DAYS)
    dates = YEAR + (mean_days - 1).astype("timedelta64[D]")
    minutes = np.arange(STEP_MIN // 2, 24 * 60, STEP_MIN).astype("timedelta64[m]")
    times = (dates[:, None].astype("datetime64[m]") + minutes).ravel()
    # At longitude 0 universal time is near solar time; the few minutes between do not matter over a day.
    position = solarposition.spa_python(pd.DatetimeIndex(times, tz="UTC"), latitude, 0.0)
    zenith = position["apparent_zenith"].to_numpy()
    up = zenith < 90
    month = np.repeat(np.arange(12), len(minutes))[up]
    zenith = zenith[up]
    beyond_air = irradiance.get_extra_radiation(mean_days)[month]
    turbidity = clearsky.lookup_linke_turbidity(pd.DatetimeIndex(dates, tz="UTC"), latitude, longitude)
    airmass = atmosphere.get_absolute_airmass(
        atmosphere.get_relative_airmass(zenith), atmosphere.alt2pres(elevation_m)
    )
    clear = clearsky.ineichen(
        zenith, airmass, turbidity.to_numpy()[month], altitude=elevation_m, dni_extra=beyond_air
    )
    around_sun = clear["dhi"] * clear["dni"] / beyond_air
    return Sky(
        month=month,
        elevation_rad=np.radians(90 - zenith),
        azimuth_rad=np.radians(position["azimuth"].to_numpy()[up]),
        beam_w_m2=clear["dni"],
        around_sun_w_m2=around_sun,
        blue_w_m2=clear["dhi"] - around_sun,
    )
