"""How strong a feed is, from its label and dose."""

# Share of the element in the oxide that labels count, from atomic masses (P 30.974, K 39.098, O 15.999):
# N-07.
P_IN_P2O5 = 2 * 30.974 / (2 * 30.974 + 5 * 15.999)
K_IN_K2O = 2 * 39.098 / (2 * 39.098 + 15.999)

# Conductivity of a common greenhouse feed: 0.32, 0.64, 1.28 mS/cm at 50, 100, 200 ppm N (Michigan State
# University Extension, "Ensuring proper fertilizer concentration in greenhouse growing", table 1). Least
# (much urea, which does not conduct) and most (nitrates of lime and potash): from memory.
_EC_PER_PPM_N = 0.64 / 100
_LEAST_EC, _MOST_EC = 0.40 / 100, 0.80 / 100

HOUSE_N_PPM = (50.0, 100.0)
"""Nitrogen in the feed that is ample in a house, ppm, least and most: common practice (N-20)."""


def nutrient_ppm(percent: float, dose_g_l: float) -> float:
    """Return ppm (mg/L) of what the label counts in %, at a dose in g/L: 10 x % x g/L (N-06)."""
    return 10 * percent * dose_g_l


def dose_for_ppm_g_l(percent: float, ppm: float) -> float:
    """Return the dose in g/L that gives this ppm; `percent` must be above zero (N-06)."""
    return ppm / (10 * percent)


def feed_ec_ms_cm(n_ppm: float) -> tuple[float, float, float]:
    """Return the conductivity in mS/cm that a feed adds to its water: expected, least, most."""
    return n_ppm * _EC_PER_PPM_N, n_ppm * _LEAST_EC, n_ppm * _MOST_EC
