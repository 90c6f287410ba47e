"""What a measure is, and what it is given.

A measure is a number (or word) computed from what the grower told. Each module of this folder declares the
names it can provide in `DECLARED` and yields what it can compute from `measure(given)`; what cannot be had is
simply not yielded, and so stays unknown.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.case import Case
from diagnose.language import numeral
from diagnose.measures.needs import PlantNeeds

Value = float | str


@dataclass(frozen=True, slots=True)
class Declaration:
    """A name that rules may speak of: a number with its unit and bounds, or one of `words`."""

    name: str
    meaning: str
    source: str
    unit: str = ""
    words: tuple[str, ...] = ()
    least: float = -1e6
    most: float = 1e6
    inputs: tuple[str, ...] = ()
    """Ids of the questions (or `place`, `plant`, `leaf_history`, `leaves`, `events`, `date`) it can use."""


@dataclass(frozen=True, slots=True)
class Assumption:
    """What had to be assumed for want of an answer, and how far the result would move if it is off."""

    name: str
    value: str
    effect: str


@dataclass(frozen=True, slots=True)
class Measure:
    """A computed value with its uncertainty, the answers it used and what it had to assume."""

    name: str
    value: Value
    used: tuple[str, ...]
    low: float | None = None
    high: float | None = None
    assumed: tuple[Assumption, ...] = ()
    remark: str = ""


def percentage(share: float) -> str:
    """Return a share as a whole percentage, such as "37 %"."""
    return numeral(share, ".0%").replace("%", " %")


@dataclass(frozen=True, slots=True)
class Given:
    """All that a measure may use: the case, the known answers, the plant's needs, and measures computed before it.

    `answers` holds known facts by name: numbers, words ("yes"/"no", choice ids), and days ago for dates.
    """

    case: Case
    answers: Mapping[str, Value]
    needs: PlantNeeds = field(default_factory=PlantNeeds)
    before: Mapping[str, Measure] = field(default_factory=dict)

    def number(self, name: str) -> float | None:
        """Return a known number, from the answers or from a measure computed before; None if unknown."""
        value = self.answers.get(name)
        if value is None and name in self.before:
            value = self.before[name].value
        return float(value) if isinstance(value, int | float) else None

    def word(self, name: str) -> str | None:
        """Return a known word, from the answers or from a measure computed before; None if unknown."""
        value = self.answers.get(name)
        if value is None and name in self.before:
            value = self.before[name].value
        return value if isinstance(value, str) else None
