"""How much nitrogen a pot gets in a week, against what trials gave foliage plants in rooms."""

import math

# Grams of N for a 6 in (15.24 cm) pot in 3 months (13 weeks), under about 100 foot-candles:
# 1 or 2 g of a 19-6-12 (Poole & Conover 1991, UF/IFAS CFREC RH-91-15): 0.19 and 0.38;
# 4.1 g of a 14-14-14, 0.57 (abstract of "The effect of light quality and fertility on long-term interior
# maintenance of selected foliage plants": a year, four species, little effect of feeding).
_POT_M2 = math.pi * 0.0762**2
LEAST_N_G_M2_WEEK, USUAL_N_G_M2_WEEK, MOST_N_G_M2_WEEK = (g / _POT_M2 / 13 for g in (0.19, 0.38, 0.57))

# 100 foot-candles of lamp light are about 13.4 µmol/m²/s (149 are 20: same abstract); RH-91-15 lit 8, 12 or
# 16 h; 12 are taken.
TRIAL_DLI = 13.4e-6 * 12 * 3600
# Production of the same group: 35 lb N per 1000 ft² a year at 3000 foot-candles (Soil and Crop Management
# SCM-7, June 2004): 3.3 g/m² a week. The day's light there, 8.7 mol/m² (6 h at full), is from memory.
_PRODUCTION_N_G_M2_WEEK = 35 * 453.6 / 92.9 / 52
_PRODUCTION_DLI = 8.7
_POWER = math.log(_PRODUCTION_N_G_M2_WEEK / USUAL_N_G_M2_WEEK) / math.log(_PRODUCTION_DLI / TRIAL_DLI)
_DARKEST_DLI = 0.05  # so that a dark corner gives a large number, not a division by zero


def weekly_n_g_m2(n_ppm: float, litres: float, every_d: float, pot_top_m2: float) -> float:
    """Return the nitrogen given in g per m² of pot top and week, at `litres` each `every_d` days."""
    return n_ppm / 1000 * litres * 7 / every_d / pot_top_m2


def usual_n_g_m2_week(dli_mol_m2_d: float) -> float:
    """Return the nitrogen in g/m² and week that suits a light feeder in this light.

    Feed follows growth, and growth follows light (N-19): in proportion to light below that of the trials, and
    above it along a power law through the trials and production.
    """
    share = max(dli_mol_m2_d, _DARKEST_DLI) / TRIAL_DLI
    return USUAL_N_G_M2_WEEK * (share if share < 1 else math.pow(share, _POWER))
