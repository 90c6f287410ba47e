"""How fast a pot dries: leaf area, water use, days to dry."""

import math
from dataclasses import dataclass

from diagnose.measures.roots.pot import Pot

# "Water utilization of six foliage plants under two interior light intensities", J. Environ. Hort. 10(2):11
# (abstract): in self-watering pots under 12 and 24 µmol/m²/s they used 1.4 to 4.8 mL per cm² of leaf in 6
# months, all more in the stronger light. In g/m²/d over 182 d:
_LEAST_USE, _MOST_USE = 1.4 * 1e4 / 182, 4.8 * 1e4 / 182  # 77 and 264
_USUAL_USE = math.sqrt(_LEAST_USE * _MOST_USE)  # 142
_TRIAL_DLI = 18e-6 * 12 * 3600  # mean of both lights for 12 h: 0.78 mol/m²/d (hours not in the abstract)
_TRIAL_VPD_KPA = 1.4  # 23 °C and 50 %, a usual interior; not in the abstract
SPREAD = _MOST_USE / _USUAL_USE
"""Factor between expected use and the published least or most: 1.85."""

_DLI_RANGE = (0.2, 20.0)  # beyond these light changes use no further; from memory

COVER = 10.0
"""Leaf area over pot-top area of a full plant, 4 to 16. A spider plant in a 10 cm pot about 16: 32 300 cm²
for 25 plants (abstract of "Evapotranspiration from spider and jade plants can improve relative humidity in an
interior environment"). The rest is from memory."""
COVER_SPREAD = 2.0

# Evaporation from the open surface of the medium, g/m²/d at the trial's deficit: from memory, 100 to 500.
_SURFACE_USE = 250.0
# The trial's water use holds both; this is the part of the leaves, so that a full plant uses what was
# published.
_LEAF_USE = _USUAL_USE - _SURFACE_USE / COVER
# A clay wall passes water too, about half as fast as the open surface: from memory (clay dries faster:
# W-08).
_CLAY_WALL = 0.5

STEP_CM = {"smaller": 0.0, "same": 0.0, "little_larger": 4.0, "much_larger": 8.0}
"""How much wider the new pot is, by the grower's word: common steps and the widest published one (W-17)."""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What drives drying: light in mol/m²/d, deficit and air pressure in kPa."""

    dli_mol_m2_d: float = _TRIAL_DLI
    vpd_kpa: float = _TRIAL_VPD_KPA
    pressure_kpa: float = 101.3


def leaf_area_m2(top_cm: float, share_of_leaves: float) -> float:
    """Return the leaf area in m² of a plant that fills a pot of this width and kept this share of leaves."""
    return COVER * math.pi * (top_cm / 200) ** 2 * share_of_leaves


def transpiration_g_m2_d(around: Surroundings) -> float:
    """Return the water that leaves use, in g (about mL) per m² of leaf and day.

    Anchored to the trial named above. It grows with the square root of light and of the deficit over
    pressure: leaves close pores as air gets drier, roughly with one over the root of the deficit (Medlyn et
    al. 2011, from memory); the root of light is an assumption that keeps the published order (more light,
    more use).
    """
    light = min(max(around.dli_mol_m2_d, _DLI_RANGE[0]), _DLI_RANGE[1])
    return _LEAF_USE * math.sqrt(light / _TRIAL_DLI) * _dryness(around)


def evaporation_ml_d(pot: Pot, around: Surroundings, *, clay: bool) -> float:
    """Return the water in mL/d that leaves the medium's surface, and the wall if it is unglazed clay."""
    area = pot.top_area_m2 + (_CLAY_WALL * pot.wall_area_m2 if clay else 0.0)
    return _SURFACE_USE * area * _dryness(around)


def days_to_dry(available_ml: float, use_ml_d: float) -> float:
    """Return the days in which the available water is used (W-20: 288 mL at 40 mL/d is 7.2 days)."""
    return available_ml / use_ml_d


def _dryness(around: Surroundings) -> float:
    deficit = max(around.vpd_kpa, 0.05)  # still air over wet leaves: a little always leaves
    return math.sqrt(deficit / _TRIAL_VPD_KPA * 101.3 / around.pressure_kpa)
