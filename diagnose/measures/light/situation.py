"""All that decides the light at a plant, as plain numbers, and the light that follows from it."""

import functools
from dataclasses import dataclass

from diagnose.measures.light.climate import outdoor_year
from diagnose.measures.light.lamp import Lamp
from diagnose.measures.light.opening import Opening
from diagnose.measures.light.ranges import DARK, Range, Year

READING_SPREAD = 2.0
"""How far one reading may be off the day's usual light: clouds, hour, angle; common practice, no source."""

BRIGHTEST_DLI = 65.0  # the open sky gives 50 to 60 on a sunny summer day (L-25)


@dataclass(frozen=True, slots=True)
class Situation:
    """A plant's light in one month (0 January to 11 December); None is unknown.

    `reading_dli` is the day's light by a meter and goes before the window. `windowless` says that no daylight
    reaches the plant at all. `reaches_leaf` is the share that dust on the leaves lets through.
    """

    month: int
    latitude: float | None = None
    longitude: float | None = None
    elevation_m: float = 0.0
    opening: Opening | None = None
    windowless: bool = False
    reading_dli: float | None = None
    lamp: Lamp | None = None
    reaches_leaf: float = 1.0


@functools.lru_cache(maxsize=512)
def year_of_light(situation: Situation) -> Year | None:
    """Return the daily light integral at the leaf month by month in mol/m²/d; None if it can't be had."""
    daylight = _daylight_year(situation)
    if daylight is None:
        if situation.lamp is None or situation.reading_dli is not None:
            return None
        daylight = (DARK,) * 12
    lamp = situation.lamp.dli() if situation.lamp else DARK
    return tuple(month.plus(lamp).times(situation.reaches_leaf) for month in daylight)


def this_month(situation: Situation) -> Range | None:
    """Return the daily light integral at the leaf in the situation's month; None if it can't be had."""
    year = year_of_light(situation)
    if year is not None:
        return year[situation.month]
    if situation.reading_dli is None:
        return None
    lamp = situation.lamp.dli() if situation.lamp else DARK
    return _reading(situation.reading_dli).plus(lamp).times(situation.reaches_leaf)


def daylight_known(situation: Situation) -> bool:
    """Return whether anything is known of the daylight; if not, a lamp's light is counted alone."""
    return situation.reading_dli is not None or _window_or_dark(situation) is not None


def _reading(dli: float) -> Range:
    dli = min(dli, BRIGHTEST_DLI)
    return Range(dli / READING_SPREAD, dli, min(dli * READING_SPREAD, BRIGHTEST_DLI))


def _daylight_year(situation: Situation) -> Year | None:
    if situation.reading_dli is None:
        return _window_or_dark(situation)
    course = _window_or_dark(situation) or _outdoors(situation)
    if course is None or course[situation.month].expected == 0:
        return None
    # The meter says how much there is now; window or sky say how it changes through the year.
    now = course[situation.month].expected
    return tuple(_reading(situation.reading_dli * month.expected / now) for month in course)


def _window_or_dark(situation: Situation) -> Year | None:
    if situation.windowless:
        return (DARK,) * 12
    if situation.opening is None or situation.latitude is None or situation.longitude is None:
        return None
    from diagnose.measures.light.indoor import window_year  # noqa: PLC0415  (loads pvlib)

    return window_year(situation.latitude, situation.longitude, situation.elevation_m, situation.opening)


def _outdoors(situation: Situation) -> Year | None:
    if situation.latitude is None or situation.longitude is None:
        return None
    return outdoor_year(situation.latitude, situation.longitude)
