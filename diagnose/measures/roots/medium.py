"""What a drained medium holds: air, and water that a plant may draw before it is watered again."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Drainage:
    """How a medium drains: air in % of volume far above the water table, and the height in cm it takes.

    Suction in a drained pot is 0 at the bottom and grows with height (Passioura 2006; W-04), so the air at
    a height z is taken as most * (1 - exp(-z / scale)).
    """

    most_percent: float
    scale_cm: float

    def air_filled_percent(self, height_cm: float) -> float:
        """Return the mean air-filled share in % of a drained column of this height in cm."""
        reach = self.scale_cm / height_cm
        return self.most_percent * (1 - reach * -math.expm1(-1 / reach))


# Two heights of one bark mix: 28 % air in a #1 pot, 12 % in a bedding cell (Bilderback & Fonteno 1987;
# W-03). The abstract gives no heights; 15 and 5 cm are taken from memory.
NURSERY_MIX = Drainage(63.5, 11.5)
# One height each, cores 7.6 cm high: sphagnum peat 11 %, pine bark 31 % air (Int. J. Agronomy 2012, 978528,
# table 1, after the NCSU porometer). How fast they change with height is not given: scales from memory.
PEAT = Drainage(65.4, 20.0)
PINE_BARK = Drainage(63.8, 5.0)
# Expanded clay drains at once to the air between its grains, 35 to 55 %: from memory.
_CLAY_AIR = Drainage(45.0, 0.5)


@dataclass(frozen=True, slots=True)
class Medium:
    """A medium: its drainage (expected, least, most air), and water drawn between waterings in %."""

    drainage: Drainage
    least_air: Drainage
    most_air: Drainage
    water_percent: float
    least_water: float
    most_water: float


# Water drawn between two waterings: 30 % for a soil mix is the figure of W-20; the others are common
# practice, no source, and wide. Moss is judged like the nursery mix, for want of a better curve.
MEDIA = {
    "soil_mix": Medium(NURSERY_MIX, PEAT, PINE_BARK, 30, 20, 40),
    "chunky_mix": Medium(PINE_BARK, NURSERY_MIX, _CLAY_AIR, 20, 12, 28),
    "mineral_passive": Medium(_CLAY_AIR, Drainage(35.0, 0.5), Drainage(55.0, 0.5), 10, 5, 18),
    "moss": Medium(NURSERY_MIX, PEAT, PINE_BARK, 40, 25, 55),
}
RESERVOIR_WATER_PERCENT = 45.0
"""Water between grains of clay below the water line, % of volume: from memory."""
