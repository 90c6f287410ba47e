"""The daily light integral at a leaf from one window, month by month.

The light of a month is that of a clear sky for the share of the day with bright sunshine, and a third of it,
all diffuse, for the rest: the two terms of FAO-56 equation 35, whose dull day gives 0.25 of what a sunny one
gives as 0.75. At the leaf it is the sun where it shines in through the opening, the sky seen through it, and
the light thrown about the room.
"""

import functools

import numpy as np

from diagnose.measures.light.climate import ANGSTROM_DULL, ANGSTROM_SUNNY, sunshine_shares
from diagnose.measures.light.convert import dli_from_energy
from diagnose.measures.light.opening import Opening
from diagnose.measures.light.ranges import Range, Year
from diagnose.measures.light.sky import Array, Sky, clear_sky
from diagnose.measures.light.window import (
    angular_loss,
    cos_on_glass,
    sky_and_skyline,
    sky_factor,
    sky_on_glass,
    sun_in_opening,
)

DULL_TO_CLEAR = ANGSTROM_DULL / (ANGSTROM_DULL + ANGSTROM_SUNNY)

DIFFUSE_LOSS = 0.88
"""What glass passes from all sides over what it passes straight on: 0.81 becomes 0.71, 0.90 0.79 (L-32)."""

ROOM_SURFACE_M2 = 80.0  # floor, ceiling and walls of a room of 4 by 4.5 by 2.5 m; common practice, no source
ROOM_REFLECTS = 0.4  # mean of a light room, 0.5, and a normal one, 0.3 (L-37)
LOW_REFLECTS, HIGH_REFLECTS = 0.3, 0.5  # floor and lower walls; ceiling and upper walls (the two of L-37)
GROUND_REFLECTS = 0.1  # the 5 of the split-flux formula is half of it, in percent
MOST_GLASS = 1 / 6  # one whole wall of a cube

MODEL_SPREAD = 1.3
"""How many times the result may be off for glass, room and level leaf; common practice, no source."""


@functools.lru_cache(maxsize=512)
def window_year(latitude: float, longitude: float, elevation_m: float, opening: Opening) -> Year:
    """Return the DLI in mol/m²/d at a level leaf behind a window: low, expected and high of each month.

    Low and high take the sunshine at the ends of its spread, and MODEL_SPREAD for all else.
    """
    sky = clear_sky(latitude, longitude, elevation_m)
    sunny_wh, dull_wh = _at_leaf(sky, opening)
    sunny = [dli_from_energy(float(value)) for value in sunny_wh]
    dull = [dli_from_energy(float(value)) for value in dull_wh]
    year = []
    for month, shares in enumerate(sunshine_shares(latitude, longitude)):
        low, expected, high = (share * sunny[month] + (1 - share) * dull[month] for share in shares)
        # A dull sky can light a room that faces away from the sun better than a blue one.
        least, most = min(low, expected, high), max(low, expected, high)
        year.append(Range(least / MODEL_SPREAD, expected, most * MODEL_SPREAD))
    return tuple(year)


def _at_leaf(sky: Sky, opening: Opening) -> tuple[Array, Array]:
    """Return the energy at the leaf in Wh/m²/d, each month, were all days sunny and were all days dull."""
    cos_glass = cos_on_glass(opening, sky.elevation_rad, sky.azimuth_rad)
    height = np.sin(sky.elevation_rad)
    from_sun_level = sky.beam_w_m2 * height + sky.around_sun_w_m2
    clear = from_sun_level + sky.blue_w_m2
    over_skyline = sky.elevation_rad > np.radians(opening.obstruction_deg)
    # Around the sun the sky counts as the beam does; near the horizon the ratio is held to 1 degree's.
    on_glass = over_skyline * cos_glass * (sky.beam_w_m2 + sky.around_sun_w_m2 / np.maximum(height, 0.01745))
    if opening.scatters:
        spread = sky_factor(opening, overcast=False, glazed=False)
        sun = opening.passes * DIFFUSE_LOSS * spread * on_glass
    else:
        seen = sun_in_opening(opening, sky.elevation_rad, sky.azimuth_rad)
        sun = opening.passes * angular_loss(cos_glass) * seen * from_sun_level
    blue = opening.passes * sky_and_skyline(opening, overcast=False) * sky.blue_w_m2
    grey = opening.passes * sky_and_skyline(opening, overcast=True) * DULL_TO_CLEAR * clear
    glass_clear = on_glass + sky_on_glass(opening, overcast=False) * sky.blue_w_m2
    glass_grey = sky_on_glass(opening, overcast=True) * DULL_TO_CLEAR * clear
    sunny = sun + blue + _thrown_about(opening, glass_clear, clear)
    dull = grey + _thrown_about(opening, glass_grey, DULL_TO_CLEAR * clear)
    return sky.daily(sunny), sky.daily(dull)


def _thrown_about(opening: Opening, on_glass: Array, on_ground: Array) -> Array:
    """Return the mean light thrown about the room by its surfaces, after the split-flux formula.

    Mean internally reflected component = T W (C Rfw + 5 Rcw) / (A (1 - R)), Hopkinson and others at the
    Building Research Station: what falls in from above meets floor and lower walls, what comes up from the
    ground ceiling and upper walls. C and 5 are the sky's and the ground's light on the glass in percent.
    """
    glass_m2 = opening.width_m * opening.height_m
    share = min(glass_m2 / ROOM_SURFACE_M2, MOST_GLASS)
    ground = 0.0 if opening.facing_deg is None else GROUND_REFLECTS / 2
    entering = on_glass * LOW_REFLECTS + ground * on_ground * HIGH_REFLECTS
    return opening.passes * DIFFUSE_LOSS * share * entering / (1 - ROOM_REFLECTS)
