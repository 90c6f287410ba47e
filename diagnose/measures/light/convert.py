"""Photons from other light units: lux, foot-candles and photon flux to a daily light integral.

PPFD is the flux of photons of 400 to 700 nm in µmol/m²/s; DLI, the daily light integral, their sum over a
day in mol/m²/d.
"""

import math

MOL_PER_UMOL_S_H = 0.0036  # 3600 s/h over 10**6 µmol/mol (L-11)
LUX_PER_FOOT_CANDLE = 10.764  # ASTM SI practice 1989 (L-22)
MOL_PER_WH = 0.007265  # global solar energy; Faust & Logan 2018, HortScience 53:1250-1257 (L-13)

LUX_PER_PPFD = {
    "daylight": 54.0,  # sun and sky; Thimijan & Heins 1983, HortScience 18:818-822 (L-17)
    "fluorescent": 74.0,  # cool white; same (L-17)
    "high_pressure_sodium": 82.0,  # same (L-17)
    "led": 67.0,  # white, 60 to 75 by colour temperature (L-23, from memory)
}
"""Lux for one µmol/m²/s, by light source."""


def dli_from_ppfd(ppfd_umol_m2_s: float, hours: float) -> float:
    """Return the DLI in mol/m²/d of a steady photon flux held for so many hours a day (L-11)."""
    return ppfd_umol_m2_s * hours * MOL_PER_UMOL_S_H


def dli_from_energy(energy_wh_m2_d: float) -> float:
    """Return the DLI in mol/m²/d of a day's global solar energy in Wh/m²/d (L-13)."""
    return energy_wh_m2_d * MOL_PER_WH


def ppfd_from_reading(reading: float, unit: str, source: str) -> float:
    """Return the photon flux in µmol/m²/s of a meter reading.

    `unit` is lux, foot_candle or umol_m2_s; `source` one of LUX_PER_PPFD. Raises KeyError for another source.
    """
    if unit == "umol_m2_s":
        return reading
    lux = reading * LUX_PER_FOOT_CANDLE if unit == "foot_candle" else reading
    return lux / LUX_PER_PPFD[source]


def dli_from_noon_ppfd(ppfd_umol_m2_s: float, day_length_h: float) -> float:
    """Return the DLI in mol/m²/d of a day whose light rises and falls as half a sine, from its noon value.

    The mean of half a sine is 2/pi of its peak. That daylight runs so is an assumption: common practice, no
    source.
    """
    return dli_from_ppfd(ppfd_umol_m2_s * 2 / math.pi, day_length_h)
