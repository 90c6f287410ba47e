"""What a grow light adds: from its photon flux at the leaf, or roughly from its watts and distance."""

import math
from dataclasses import dataclass

from diagnose.measures.light.convert import dli_from_ppfd
from diagnose.measures.light.ranges import Range

UMOL_PER_J = 1.5
"""Photons per joule of a household LED grow light; the better kind reaches 1.9, the least that the
DesignLights Consortium lists (Runkle 2020, A closer look at LED efficacy, Greenhouse Product News); 1.5
common practice."""

HALF_WIDTH_M = 0.15  # of a lamp 30 cm across; common practice, no source
ROUGHLY = 2.0  # a bar or a narrow beam may give half or twice as much; common practice, no source
METER_ERROR = 1.15  # of an ordinary meter or a maker's figure; common practice, no source


@dataclass(frozen=True, slots=True)
class Lamp:
    """A lamp's photon flux at the leaf in µmol/m²/s, how many times it may be off, and its hours a day."""

    ppfd_umol_m2_s: float
    hours: float
    error: float = METER_ERROR

    def dli(self) -> Range:
        """Return what the lamp adds in mol/m²/d."""
        dli = dli_from_ppfd(self.ppfd_umol_m2_s, self.hours)
        return Range(dli / self.error, dli, dli * self.error)


def ppfd_from_watts(watts: float, distance_m: float) -> float:
    """Return the photon flux in µmol/m²/s straight below a lamp, roughly.

    The lamp is taken as a disc that shines evenly (Lambert) downwards: flux / (pi (radius² + distance²)), the
    view factor of a disc from a point on its axis.
    """
    return watts * UMOL_PER_J / (math.pi * (HALF_WIDTH_M**2 + distance_m**2))
