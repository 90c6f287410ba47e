"""Days to dry from what the grower told, with every answer used and every guess made."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field

from diagnose.language import _, numeral
from diagnose.measures.air.vapour import air_pressure_kpa
from diagnose.measures.measure import Assumption, Given, Measure
from diagnose.measures.roots.drying import (
    COVER,
    COVER_SPREAD,
    SPREAD,
    STEP_CM,
    Surroundings,
    days_to_dry,
    evaporation_ml_d,
    leaf_area_m2,
    transpiration_g_m2_d,
)
from diagnose.measures.roots.medium import MEDIA, RESERVOIR_WATER_PERCENT, Medium
from diagnose.measures.roots.pot import Pot, usual_pot

POT_GUESS = 1.25
"""Factor of volume either way if base or height is guessed: from memory."""
_LIGHT_GUESS, _DEFICIT_GUESS = 2.0, 1.3  # factors of water use if light or dryness is not known: from memory
_SEEN_SPREAD = 1.2  # factor of a drying time that the grower saw: from memory
_SETTLED_D = 120  # after this a plant is taken to have grown into its new pot: from memory


@dataclass(frozen=True, slots=True)
class ToldPot:
    """The grower's pot, the answers it comes from, and what was assumed of its shape."""

    pot: Pot
    used: tuple[str, ...]
    assumed: tuple[Assumption, ...]


@dataclass(slots=True)
class _Basis:
    """What a sum rests on, gathered while it is made; each factor is an uncertainty either way."""

    used: list[str] = field(default_factory=list)
    assumed: list[Assumption] = field(default_factory=list)
    factors: list[float] = field(default_factory=list)

    def guess(self, name: str, value: str, effect: str, factor: float) -> None:
        self.assumed.append(Assumption(name, value, effect))
        self.factors.append(factor)

    @property
    def spread(self) -> float:
        """All factors together, as if independent."""
        return math.exp(math.hypot(*(math.log(factor) for factor in self.factors)))


def told_pot(given: Given) -> ToldPot | None:
    """Return the pot by the grower's sizes, or None if its width is not known."""
    top, base, height = (given.number(name) for name in ("pot_top_cm", "pot_base_cm", "pot_height_cm"))
    if top is None:
        return None
    pot = usual_pot(top, base, height)
    sides = (("pot_base_cm", base, pot.base_cm), ("pot_height_cm", height, pot.height_cm))
    return ToldPot(
        pot,
        ("pot_top_cm", *(name for name, told, _ in sides if told is not None)),
        tuple(
            Assumption(
                name,
                f"{numeral(value, '.0f')} cm",
                _("volume goes with height and with the square of width"),
            )
            for name, told, value in sides
            if told is None
        ),
    )


def expected_days_to_dry(given: Given) -> Iterator[Measure]:
    """Yield days_to_dry: the time the grower saw, or else the sum of water and use if it can be made."""
    seen = given.number("dries_in_d")
    medium, told = MEDIA.get(given.word("medium") or ""), told_pot(given)
    if seen is not None:
        yield Measure("days_to_dry", seen, ("dries_in_d",), seen / _SEEN_SPREAD, seen * _SEEN_SPREAD)
    elif medium is not None and told is not None:
        yield _computed(given, medium, told)


def _computed(given: Given, medium: Medium, told: ToldPot) -> Measure:
    basis = _Basis([*told.used, "medium"], list(told.assumed), [SPREAD, COVER_SPREAD])
    basis.factors.append(math.sqrt(medium.most_water / medium.least_water))
    if told.assumed:
        basis.factors.append(POT_GUESS)
    around = _surroundings(given, basis)
    area = leaf_area_m2(_filled_top_cm(given, told.pot, basis), _share_of_leaves(given, basis))
    kind = given.word("pot_kind")
    if kind is not None:
        basis.used.append("pot_kind")
    use_ml_d = area * transpiration_g_m2_d(around) + evaporation_ml_d(told.pot, around, clay=kind == "clay")
    available_ml = _available_ml(given, told.pot, medium, basis)
    days = days_to_dry(available_ml, use_ml_d)
    return Measure(
        "days_to_dry",
        days,
        tuple(basis.used),
        days / basis.spread,
        days * basis.spread,
        tuple(basis.assumed),
        remark=_("{available} mL to draw at about {use} mL a day; rough, so weigh the pot.").format(
            available=numeral(available_ml, ".0f"), use=numeral(use_ml_d, ".0f")
        ),
    )


def _surroundings(given: Given, basis: _Basis) -> Surroundings:
    usual = Surroundings()
    dli, vpd = given.number("dli_mol_m2_d"), given.number("vpd_kpa")
    if dli is None:
        light = f"{numeral(usual.dli_mol_m2_d, '.1f')} mol/m²/d"
        basis.guess(_("light"), light, _("more light dries faster"), _LIGHT_GUESS)
    else:
        basis.used.append("dli_mol_m2_d")
    if vpd is None:
        deficit = f"{numeral(usual.vpd_kpa)} kPa"
        basis.guess(_("deficit of the air"), deficit, _("drier air dries faster"), _DEFICIT_GUESS)
    else:
        basis.used.append("vpd_kpa")
    elevation = given.case.place.elevation_m
    if elevation is not None:
        basis.used.append("place")
    return Surroundings(
        usual.dli_mol_m2_d if dli is None else dli,
        usual.vpd_kpa if vpd is None else vpd,
        usual.pressure_kpa if elevation is None else air_pressure_kpa(elevation),
    )


def _filled_top_cm(given: Given, pot: Pot, basis: _Basis) -> float:
    """Return the width of pot that the plant fills: soon after potting on, that of the old pot."""
    step, since = given.word("repot_step"), given.number("days_since_repotted")
    if step is None or since is None or since > _SETTLED_D:
        return pot.top_cm
    basis.used += ["repot_step", "days_since_repotted"]
    return max(pot.top_cm - STEP_CM.get(step, 0.0), pot.top_cm * 0.4)


def _share_of_leaves(given: Given, basis: _Basis) -> float:
    """Return what share of its usual leaves the plant carries, 0 to 1.5; a full plant if not known."""
    now, before = given.number("leaves_standing"), given.number("leaves_before")
    usual = given.needs.leaf_number
    if now is not None and before:
        basis.used += ["leaves_standing", "leaves_before"]
        return min(1.5, now / before)
    if now is not None and usual is not None:
        basis.used += ["leaves_standing", "plant"]
        return min(1.5, now / ((usual.standing_low + usual.standing_high) / 2))
    basis.assumed.append(
        Assumption(
            _("leaves"),
            _("{times} times the pot's top").format(times=numeral(COVER, ".0f")),
            _("half the leaves, about half the use"),
        )
    )
    return 1.0


def _available_ml(given: Given, pot: Pot, medium: Medium, basis: _Basis) -> float:
    drawn_ml = pot.volume_l * 10 * medium.water_percent
    reservoir = given.number("reservoir_height_cm")
    if reservoir is None:
        return drawn_ml
    basis.used.append("reservoir_height_cm")
    return drawn_ml + pot.filled_to(reservoir).volume_l * 10 * RESERVOIR_WATER_PERCENT
