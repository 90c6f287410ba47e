"""Season and day length from date and latitude.

Equations: Allen, Pereira, Raes, Smith 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56,
equations 24, 25 and 34 (L-08).
"""

import datetime as dt
import math
from collections.abc import Iterator

from diagnose.language import marked
from diagnose.measures.measure import Declaration, Given, Measure
from diagnose.measures.places import locate

SEASONS = ("spring", "summer", "autumn", "winter")
TRENDS = ("lengthening", "shortening", "steady")
TROPICS_DEG = 10.0  # nearer to the equator day length hardly changes; common practice, no source
STEADY_H_PER_WEEK = 7 / 60  # a minute a day; common practice, no source

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "season",
        marked("season of the plant's place"),
        "meteorological seasons: whole months, spring from March in the north, from September in the south",
        words=SEASONS,
        inputs=("place", "date"),
    ),
    Declaration(
        "day_length_h",
        marked("hours from sunrise to sunset"),
        "FAO-56 equation 34 (L-08)",
        unit="h",
        least=0,
        most=24,
        inputs=("place", "date"),
    ),
    Declaration(
        "day_length_trend",
        marked("whether the days grow longer or shorter"),
        "FAO-56 equation 34 (L-08); steady below a minute a day (common practice, no source)",
        words=TRENDS,
        inputs=("place", "date"),
    ),
)


def declination_rad(day: float) -> float:
    """Return the sun's declination on a day of the year (FAO-56 equation 24)."""
    return 0.409 * math.sin(2 * math.pi * day / 365 - 1.39)


def sunset_angle_rad(latitude: float, day: float) -> float:
    """Return the hour angle of sunset: 0 in polar night, pi under the midnight sun (FAO-56 equation 25)."""
    latitude = max(-89.9, min(89.9, latitude))
    cosine = -math.tan(math.radians(latitude)) * math.tan(declination_rad(day))
    return math.acos(max(-1.0, min(1.0, cosine)))


def day_length_h(latitude: float, day: float) -> float:
    """Return the hours from sunrise to sunset on a day of the year (FAO-56 equation 34)."""
    return 24 / math.pi * sunset_angle_rad(latitude, day)


def day_length_trend(latitude: float, day: float) -> str:
    """Return whether the days are lengthening, shortening or steady, over the week around the day."""
    change_h = day_length_h(latitude, day + 3.5) - day_length_h(latitude, day - 3.5)
    if abs(change_h) < STEADY_H_PER_WEEK:
        return "steady"
    return "lengthening" if change_h > 0 else "shortening"


def season(latitude: float, date: dt.date) -> str | None:
    """Return the season; None near the equator, where the word has no meaning for light."""
    if abs(latitude) < TROPICS_DEG:
        return None
    from_march = (date.month - 3) // 3 % 4
    return SEASONS[from_march if latitude > 0 else (from_march + 2) % 4]


def measure(given: Given) -> Iterator[Measure]:
    """Yield season, day length and its trend where the latitude is known."""
    spot = locate(given.case.place)
    if spot is None:
        return
    date = given.case.date
    day = date.timetuple().tm_yday
    used = ("place", "date")
    word = season(spot.latitude, date)
    if word is not None:
        yield Measure("season", word, used)
    yield Measure("day_length_h", day_length_h(spot.latitude, day), used)
    yield Measure("day_length_trend", day_length_trend(spot.latitude, day), used)
