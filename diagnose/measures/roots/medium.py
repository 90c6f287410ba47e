"""What a drained medium holds: air, and water that a plant may draw before it is watered again."""

import math
from dataclasses import dataclass

_WATER_KG_M3, _GRAVITY_M_S2 = 998.0, 9.81  # at 20 °C


def suction_kpa(height_cm: float) -> float:
    """Return the suction in kPa on water at this height in cm in a drained pot (W-04, W-05)."""
    return _WATER_KG_M3 * _GRAVITY_M_S2 * height_cm / 100 / 1000


@dataclass(frozen=True, slots=True)
class Drainage:
    """How a medium drains: air in % of volume under strong suction, and the suction in kPa that it takes.

    Suction in a drained pot is 0 at the bottom and grows with height (Passioura 2006; W-04). Air at a suction
    s is taken as most * (1 - exp(-s / scale)): a shape with two numbers, chosen because it fits W-03.
    """

    most_percent: float
    scale_kpa: float

    def air_filled_percent(self, height_cm: float) -> float:
        """Return the mean air-filled share in % of a drained column of this height in cm."""
        reach = self.scale_kpa / suction_kpa(height_cm)
        return self.most_percent * (1 - reach * -math.expm1(-1 / reach))


# Two heights of one bark mix: 28 % air in a #1 pot, 12 % in a bedding cell (Bilderback & Fonteno 1987;
# W-03). The abstract gives no heights; 15 and 5 cm are taken from memory.
NURSERY_MIX = Drainage(63.5, 1.126)
# One height each, cores 7.6 cm high: sphagnum peat 11 %, pine bark 31 % air (Int. J. Agronomy 2012, 978528,
# table 1, after the NCSU porometer). How fast they change with height is not given: scales from memory.
PEAT = Drainage(65.4, 1.958)
PINE_BARK = Drainage(63.8, 0.4895)
# Expanded clay drains at once to the air between its grains, 35 to 55 %: from memory.
_CLAY_AIR = Drainage(45.0, 0.049)


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
    "mineral_passive": Medium(_CLAY_AIR, Drainage(35.0, 0.049), Drainage(55.0, 0.049), 10, 5, 18),
    "moss": Medium(NURSERY_MIX, PEAT, PINE_BARK, 40, 25, 55),
}
RESERVOIR_WATER_PERCENT = 45.0
"""Water between grains of clay below the water line, % of volume: from memory."""
