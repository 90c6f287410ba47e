"""What a level leaf sees through a window: its share of the sky, and whether the sun stands in the opening.

Shares are of the light on open level ground: the sky factor of Tregenza & Sharples 1993, Daylighting
Algorithms, 2.31 (even sky) and 2.32 (CIE overcast sky), here by numerical integration so that any rectangle,
glass and skyline can be had (L-34, L-35, L-36).
"""

import functools
import math

import numpy as np
from numpy.typing import NDArray

from diagnose.measures.light.opening import NEAREST_M, Opening

Array = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)

PLANT_M = 0.3  # height and depth over which the sun is averaged; common practice, no source

SKYLINE_EVEN, SKYLINE_OVERCAST = 0.1, 0.2
"""Brightness of houses and trees against the sky they hide; BRE Digest 309 in algorithm 2.21, same book."""


def angular_loss(cos_incidence: Array) -> Array:
    """Return how much glass passes at an angle against straight on (Rivero 1958; L-36b, from memory)."""
    sine = np.sqrt(np.maximum(0.0, 1 - cos_incidence**2))
    return np.asarray(1.018 * cos_incidence * (1 + sine**3))


@functools.lru_cache(maxsize=1024)
def sky_factor(opening: Opening, overcast: bool, glazed: bool, above_deg: float = 0.0) -> float:
    """Return the share of the light of an open sky that reaches a level leaf from above this height.

    `overcast` takes the CIE overcast sky, else an even one; `glazed` counts the loss at slanting angles, but
    not the glass's own transmittance.
    """
    elevation, weight, cos_incidence = _view(opening, math.radians(above_deg))
    if overcast:
        weight = weight * (1 + 2 * np.sin(elevation)) * 3 / 7
    if glazed:
        weight = weight * angular_loss(cos_incidence)
    return float(weight.sum())


def sky_and_skyline(opening: Opening, overcast: bool) -> float:
    """Return the share that reaches the leaf from sky and obstruction together, through glass passing all."""
    whole = sky_factor(opening, overcast, glazed=True)
    sky = sky_factor(opening, overcast, glazed=True, above_deg=opening.obstruction_deg)
    return sky + (SKYLINE_OVERCAST if overcast else SKYLINE_EVEN) * (whole - sky)


def _view(opening: Opening, above_rad: float) -> tuple[Array, Array, Array]:
    """Return the directions in which the leaf sees the opening: elevation, weight, cosine on the glass."""
    if opening.facing_deg is None:
        return _view_of_roof(opening, above_rad)
    away = opening.away_m
    side, side_width = _between(
        math.atan((opening.offset_m - opening.width_m / 2) / away),
        math.atan((opening.offset_m + opening.width_m / 2) / away),
    )
    bottom = np.arctan(opening.sill_m * np.cos(side) / away)
    top = np.arctan((opening.sill_m + opening.height_m) * np.cos(side) / away)
    elevation, height = _between(np.maximum(bottom, above_rad), top)
    azimuth = side[:, None]
    weight = np.sin(elevation) * np.cos(elevation) * height * side_width[:, None] / math.pi
    return elevation, weight, np.cos(elevation) * np.cos(azimuth)


def _view_of_roof(opening: Opening, above_rad: float) -> tuple[Array, Array, Array]:
    away = opening.away_m
    reach = 1 / math.tan(max(above_rad, 1e-6))  # the skyline cuts the opening to a circle about the zenith
    left, right = (opening.offset_m + side * opening.width_m / 2 for side in (-1, 1))
    x, x_width = _between(math.atan(max(left / away, -reach)), math.atan(min(right / away, reach)))
    tan_x = np.tan(x)
    half = np.minimum(opening.height_m / 2 / away, np.sqrt(np.maximum(0.0, reach**2 - tan_x**2)))
    y, y_width = _between(-np.arctan(half), np.arctan(half))
    square_x, square_y = tan_x[:, None] ** 2, np.tan(y) ** 2
    sin_elevation = 1 / np.sqrt(1 + square_x + square_y)
    weight = (1 + square_x) * (1 + square_y) * sin_elevation**4 * x_width[:, None] * y_width / math.pi
    return np.arcsin(sin_elevation), weight, sin_elevation


def _between(low: float | Array, high: float | Array) -> tuple[Array, Array]:
    """Return Gauss nodes and weights from low to high; an empty span weighs nothing."""
    low, high = np.asarray(low, float)[..., None], np.asarray(high, float)[..., None]
    half = np.maximum(0.0, high - low) / 2
    return low + half * (1 + _NODES), half * _WEIGHTS


def sun_in_opening(opening: Opening, elevation_rad: Array, azimuth_rad: Array) -> Array:
    """Return the share of the plant, 0 to 1, that the sun shines on through the opening.

    Taken at nine points over PLANT_M, so that a hand's breadth does not decide between shade and full sun,
    and on both sides of the window's middle: the grower tells how far aside the plant stands, not on which
    side.
    """
    steps = (-PLANT_M / 2, 0.0, PLANT_M / 2)
    points = [
        _in_rectangle(opening, (side * opening.offset_m, back, up), elevation_rad, azimuth_rad)
        for side in (-1, 1)
        for back in steps
        for up in steps
    ]
    over_skyline = elevation_rad > math.radians(opening.obstruction_deg)
    return np.asarray(np.mean(points, axis=0) * over_skyline)


def _in_rectangle(
    opening: Opening, point: tuple[float, float, float], elevation: Array, azimuth: Array
) -> NDArray[np.bool_]:
    """Return where the sun's direction meets the glass, from a point moved aside, back from it and up."""
    offset, back, up = point
    away = max(NEAREST_M, opening.distance_m + back)
    if opening.facing_deg is None:
        reach = away / np.tan(np.maximum(elevation, 1e-6))
        across, along = reach * np.sin(azimuth), reach * np.cos(azimuth)
        bottom, in_front = -opening.height_m / 2, np.ones_like(elevation, bool)
    else:
        aside = azimuth - math.radians(opening.facing_deg)
        toward = np.maximum(np.cos(aside), 1e-9)
        across, along = away * np.sin(aside) / toward, away * np.tan(elevation) / toward
        bottom, in_front = opening.sill_m, np.cos(aside) > 1e-9
    level = np.abs(across - offset) <= opening.width_m / 2
    within = (along + up >= bottom) & (along + up <= bottom + opening.height_m)
    return np.asarray(in_front & level & within)


def cos_on_glass(opening: Opening, elevation_rad: Array, azimuth_rad: Array) -> Array:
    """Return the cosine of the angle at which the sun falls on the glass; 0 where it stands behind it."""
    if opening.facing_deg is None:
        return np.asarray(np.sin(elevation_rad))
    aside = azimuth_rad - math.radians(opening.facing_deg)
    return np.asarray(np.maximum(0.0, np.cos(elevation_rad) * np.cos(aside)))


def sky_on_glass(opening: Opening, overcast: bool) -> float:
    """Return the light that sky and skyline throw on the glass, as a share of that on open level ground.

    Closed forms of the integral over the half of the sky before a wall, or over all of it for a roof; under
    the overcast sky an open wall gets 0.396, the 39 % of the split-flux formula (see indoor.py).
    """
    low = math.radians(opening.obstruction_deg)
    if opening.facing_deg is None:
        sine = math.sin(low)
        whole, sky = 1.0, 1 - (3 * sine**2 + 4 * sine**3) / 7 if overcast else 1 - sine**2
    else:
        even_above = math.pi / 4 - low / 2 - math.sin(2 * low) / 4  # integral of cos² of the height
        if overcast:
            scale, rest = 6 / (7 * math.pi), 2 / 3
        else:
            scale, rest = 2 / math.pi, 0.0
        whole = scale * (math.pi / 4 + rest)
        sky = scale * (even_above + rest * math.cos(low) ** 3)
    return sky + (SKYLINE_OVERCAST if overcast else SKYLINE_EVEN) * (whole - sky)
