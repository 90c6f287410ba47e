"""How much of a night is spent below a limit, in degree-hours."""

import math
from dataclasses import dataclass

USUAL_NIGHT_H = 12.0


@dataclass(frozen=True, slots=True)
class Chill:
    """Degree-hours (°C·h) of one night below a limit: expected, least and most for these readings."""

    expected: float
    least: float
    most: float


def chill_in_a_night(evening_c: float, low_c: float, limit_c: float, night_h: float) -> Chill:
    """Return the degree-hours below `limit_c` of a night that falls to `low_c` and returns.

    No logger tells the shape of the night, so it is assumed: a half sine for the expected value, a sharp V
    for the least, and a whole night at the low for the most. An evening colder than the low counts as the
    low. Severity of chilling is temperature times time (Chen, UF/IFAS EDIS EP530; A-16); the shapes are
    common practice, no source.
    """
    drop_k = max(0.0, evening_c - low_c)
    depth_k = max(0.0, limit_c - low_c)  # at the coldest moment
    most = night_h * depth_k
    if depth_k >= drop_k:  # the whole night is below the limit
        return Chill(night_h * (depth_k - drop_k * (1 - 2 / math.pi)), night_h * (depth_k - drop_k / 2), most)
    above_k = drop_k - depth_k
    enters = math.asin(above_k / drop_k)
    sine = night_h / math.pi * (2 * drop_k * math.cos(enters) - above_k * (math.pi - 2 * enters))
    least = night_h * depth_k**2 / (2 * drop_k)
    return Chill(min(max(sine, least), most), least, most)
