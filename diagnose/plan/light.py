"""The light at the plant as a plan and a report show it: now, through the year, and with one thing changed."""

from dataclasses import dataclass, replace

from diagnose.language import _, numeral
from diagnose.measures.light import (
    Alternative,
    Range,
    Situation,
    Year,
    alternatives,
    read,
    this_month,
    year_of_light,
)
from diagnose.measures.light.what_if import BESIDE_GLASS_M
from diagnose.measures.measure import Given
from diagnose.measures.needs import LightNeed
from diagnose.rulebase.vocabulary import plain_number

_NEAR_M = (BESIDE_GLASS_M, 0.5, 1.0)
_DARK_DLI = 0.05  # a third of the least that any plant profile lives on (0.14, L-50): as good as dark


@dataclass(frozen=True, slots=True)
class Light:
    """The light at the plant in mol/m²/d: this month, through the year, and with one thing changed."""

    situation: Situation
    now: Range
    year: Year | None
    need: LightNeed | None
    alternatives: tuple[Alternative, ...]

    @property
    def darkest(self) -> Range:
        """The darkest month's light, or this month's if the year can't be told."""
        return min(self.year, key=_expected) if self.year else self.now

    def at_distance(self, distance_m: float, month: int) -> Range | None:
        """Return the light so far from the window in a month (0 January); None if there is no known window."""
        opening = self.situation.opening
        if opening is None or self.situation.reading_dli is not None:
            return None
        moved = replace(opening, distance_m=distance_m)
        return this_month(replace(self.situation, opening=moved, month=month))

    @property
    def window_is_too_weak(self) -> bool:
        """Whether no place near the glass has this month what the plant lives on."""
        near = [self.at_distance(distance_m, self.situation.month) for distance_m in _NEAR_M]
        return self.need is not None and all(
            light is not None and light.expected < self.need.least_dli_mol_m2_d for light in near
        )


def light_of(given: Given, *, with_alternatives: bool) -> Light | None:
    """Return the light at the plant; None if it can't be told. Alternatives cost a window's year each."""
    situation = read(given).situation
    now = this_month(situation)
    if now is None:
        return None
    other = alternatives(situation) if with_alternatives else ()
    return Light(situation, now, year_of_light(situation), given.needs.light, other)


def _expected(light: Range) -> float:
    return light.expected


def amount(light: Range) -> tuple[str, str]:
    """Return a daily light integral and its range as words in mol/m²/d; no digits where it is as good as dark."""
    if light.high < _DARK_DLI:
        return _("below {number}").format(number=numeral(_DARK_DLI, "g")), ""
    span = _("{low} to {high}").format(low=plain_number(light.low), high=plain_number(light.high))
    return plain_number(light.expected), span


def dli(light: Range) -> str:
    """Return a daily light integral with its unit and range."""
    expected, span = amount(light)
    return f"{expected} mol/m²/d" + (f" ({span})" if span else "")
