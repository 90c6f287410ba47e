"""How cold the inner face of a window pane gets."""

from dataclasses import dataclass

# Resistance of the film of air on the room side, m²K/W: 0.13 (Rsi of EN ISO 6946 and EN ISO 10077-2, as
# given in a roof maker's heat sheet); an energy management handbook (section 9.6.1, multiple glass panes)
# has 0.68 h·ft²·°F/Btu, which is 0.12.
_INNER_FILM_M2K_W = 0.13

NIGHT_DROP_K = 3.0
"""How much cooler a night is if only the day is known: 3 to 6 K (A-26), from memory; the least is taken."""


@dataclass(frozen=True, slots=True)
class Pane:
    """Heat transmittance at the centre of the glass in W/m²K: typical, best and worst of its kind."""

    u_w_m2k: float
    best: float
    worst: float


# Single and double, typical: 6 and 3 (The Engineering ToolBox, "Windows: inside condensation").
# Single, double and clear triple, worst: 6.7, 3.1, 2.0, from resistances of 0.85, 1.85 and 2.85
# h·ft²·°F/Btu (energy management handbook, section 9.6.1).
# Single, best 5.0, and coated double 1.1: DETAIL, "Glass coatings for every architectural application".
# Coated double 1.0 to 1.2 and triple 0.7 to 1.3: a glazier's table of argon-filled make-ups.
# Coated, worst 1.6: limit of British rules as told by V. Holden 2017. Double, best 2.7: from memory.
# A tint does not change the heat lost; a tinted pane may be single.
PANES = {
    "single": Pane(6.0, 5.0, 6.7),
    "double": Pane(3.0, 2.7, 3.1),
    "triple": Pane(1.3, 0.7, 2.0),
    "coated": Pane(1.1, 1.0, 1.6),
    "tinted": Pane(3.0, 2.7, 6.7),
}
UNKNOWN_PANE = Pane(3.0, 0.7, 6.7)
"""Glazing not told: judged as clear double, with every kind inside the range."""


def glass_temperature_c(indoor_c: float, outdoor_c: float, u_w_m2k: float) -> float:
    """Return the temperature in °C of the room side of a pane at night, in steady state.

    The film of room air takes its share, U times its resistance, of the whole drop from inside to outside.
    Frames and the edge of the glass are colder than this.
    """
    return indoor_c - u_w_m2k * _INNER_FILM_M2K_W * (indoor_c - outdoor_c)
