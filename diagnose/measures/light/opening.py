"""The opening that daylight comes through, seen from the leaf: a rectangle with glass and perhaps a cover."""

from dataclasses import dataclass

NEAREST_M = 0.05  # a leaf is no nearer to the glass than this

GLASS = {
    "single": 0.90,  # visible transmittance, centre of glass; handbook table (L-30)
    "double": 0.81,  # same
    "coated": 0.72,  # double, selective coating; same
    "tinted": 0.61,  # double, bronze; same
    "triple": 0.73,  # 0.90 three times over, as 0.81 is 0.90 twice; computed from L-30
}
COVER = {
    "none": 1.0,
    "insect_screen": 0.7,  # common practice, no source
    "net_curtain": 0.45,  # 0.3 to 0.6 (L-33, from memory)
    "blind_half": 0.5,  # half the glass covered
    "frosted": 0.9,  # common practice, no source
}
DIRT = 0.9  # 0.8 to 0.95 for upright glass (L-33, from memory)

FACING_DEG = {
    "north": 0.0,
    "north_east": 45.0,
    "east": 90.0,
    "south_east": 135.0,
    "south": 180.0,
    "south_west": 225.0,
    "west": 270.0,
    "north_west": 315.0,
}


@dataclass(frozen=True, slots=True)
class Opening:
    """A window in a wall, or in the roof, and where the leaf stands to it; the leaf is taken as level.

    `facing_deg` is the azimuth the wall looks to (0 north, east positive), None for a window in the roof.
    `distance_m` runs from the leaf straight to the plane of the glass; `sill_m` is how far the lower edge of
    the glass lies above (+) or below (-) the leaf; `offset_m` how far the leaf stands sideways from the
    middle. `passes` is the share of light that goes through when it falls straight on. A window that
    `scatters` has frosted glass. Below `obstruction_deg` houses or trees stand instead of sky.
    """

    facing_deg: float | None
    distance_m: float
    width_m: float = 1.2
    height_m: float = 1.2
    sill_m: float = 0.0
    offset_m: float = 0.0
    passes: float = 0.73
    scatters: bool = False
    obstruction_deg: float = 0.0

    @property
    def away_m(self) -> float:
        """Return the distance, never less than NEAREST_M."""
        return max(NEAREST_M, self.distance_m)


def share_passed(glazing: str, cover: str) -> float:
    """Return the share of light that goes through glass, dirt and cover when it falls straight on."""
    return GLASS[glazing] * COVER[cover] * DIRT
