"""How much the sun shines: the share of the day with bright sunshine, and the light outdoors under it.

Sunshine: measured normals of cities (sunshine.py), the four nearest weighted by distance. Light outdoors:
FAO-56 (Allen and others 1998) equations 21, 23 and 35, after Angstrom.
"""

import functools
import math

from diagnose.measures.light.convert import dli_from_energy
from diagnose.measures.light.ranges import Range, Year
from diagnose.measures.light.sunshine import SUNSHINE_H
from diagnose.measures.season import day_length_h, declination_rad, sunset_angle_rad

MEAN_DAYS = (17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344)
"""Day of the year that stands for each month (the mean days of L-42)."""

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)

ANGSTROM_DULL = (
    0.25  # share of the light above the air that comes through on a dull day; FAO-56 eq. 35 (L-03)
)
ANGSTROM_SUNNY = 0.50  # and how much a day of full sunshine adds; same

NEIGHBOURS = 4
EARTH_RADIUS_KM = 6371

_ERROR_BY_DISTANCE_KM = ((300, 0.08), (700, 0.10), (math.inf, 0.15))
"""Spread of the sunshine share by distance to the nearest city of the table.

Root mean square error when each city is told from the others; tests/bench/light.py prints it.
"""


def extraterrestrial_mj_m2_d(latitude: float, day: float) -> float:
    """Return the sun's energy on a level plane above the air, in MJ/m²/d (FAO-56 equations 21 and 23)."""
    phi, delta, sunset = math.radians(latitude), declination_rad(day), sunset_angle_rad(latitude, day)
    nearness = 1 + 0.033 * math.cos(2 * math.pi * day / 365)
    height = sunset * math.sin(phi) * math.sin(delta) + math.cos(phi) * math.cos(delta) * math.sin(sunset)
    return max(0.0, 24 * 60 / math.pi * 0.0820 * nearness * height)


def global_mj_m2_d(latitude: float, day: float, share: float) -> float:
    """Return the sun's energy on level ground in MJ/m²/d by the share of sunshine (FAO-56 equation 35)."""
    return (ANGSTROM_DULL + ANGSTROM_SUNNY * share) * extraterrestrial_mj_m2_d(latitude, day)


@functools.lru_cache(maxsize=256)
def sunshine_shares(latitude: float, longitude: float) -> Year:
    """Return for each month the share of the day with bright sunshine: low, expected, high (0 to 1)."""
    shares, away_km = interpolated_shares(latitude, longitude)
    error = next(error for limit, error in _ERROR_BY_DISTANCE_KM if away_km <= limit)
    return tuple(Range(max(0.0, share - error), share, min(1.0, share + error)) for share in shares)


def interpolated_shares(
    latitude: float, longitude: float, left_out: int | None = None
) -> tuple[tuple[float, ...], float]:
    """Return the expected share of each month and the distance in km to the nearest city of the table.

    One row can be left out, to see how well the others tell its share.
    """
    away_km = [
        math.inf if index == left_out else distance_km(latitude, longitude, row[1], row[2])
        for index, row in enumerate(SUNSHINE_H)
    ]
    near = sorted(range(len(away_km)), key=away_km.__getitem__)[:NEIGHBOURS]
    weights = [1 / (away_km[city] + 50) ** 2 for city in near]  # 50 km keeps a city from ruling alone
    by_city = [city_shares()[city] for city in near]
    shares = (
        sum(weight * share for weight, share in zip(weights, month, strict=True)) / sum(weights)
        for month in zip(*by_city, strict=True)
    )
    return tuple(shares), away_km[near[0]]


def distance_km(latitude: float, longitude: float, other_latitude: float, other_longitude: float) -> float:
    """Return the great-circle distance between two positions (haversine)."""
    north = math.radians(other_latitude - latitude)
    east = math.radians(other_longitude - longitude)
    cosines = math.cos(math.radians(latitude)) * math.cos(math.radians(other_latitude))
    half = math.sin(north / 2) ** 2 + cosines * math.sin(east / 2) ** 2
    return 2 * EARTH_RADIUS_KM * math.asin(min(1.0, math.sqrt(half)))


@functools.cache
def city_shares() -> tuple[tuple[float, ...], ...]:
    """Return the share of the day with bright sunshine in each month, for each city of the table."""
    return tuple(_shares(latitude, hours) for _, latitude, _, hours in SUNSHINE_H)


def _shares(latitude: float, hours: tuple[int, ...]) -> tuple[float, ...]:
    possible_h = [days * day_length_h(latitude, day) for days, day in zip(MONTH_DAYS, MEAN_DAYS, strict=True)]
    pairs = zip(hours, possible_h, strict=True)
    return tuple(min(1.0, sunny / possible) if possible > 0 else 0.0 for sunny, possible in pairs)


def outdoor_year(latitude: float, longitude: float) -> Year:
    """Return the daily light integral on open level ground, month by month, after FAO-56."""
    return tuple(
        Range(*(dli_from_energy(global_mj_m2_d(latitude, day, share) / 0.0036) for share in shares))
        for day, shares in zip(MEAN_DAYS, sunshine_shares(latitude, longitude), strict=True)
    )
