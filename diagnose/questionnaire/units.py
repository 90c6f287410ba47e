"""Metric and imperial: questions are stored metric; what is typed may be either."""

import re
from typing import Literal

from diagnose.language import numeral, pgettext
from diagnose.questionnaire.words import words
from diagnose.rulebase.vocabulary import unit_said

System = Literal["metric", "imperial"]

# unit stored -> (unit shown when imperial, factor, offset): imperial = metric * factor + offset (exact definitions)
IMPERIAL: dict[str, tuple[str, float, float]] = {
    "°C": ("°F", 9 / 5, 32.0),
    "cm": ("in", 1 / 2.54, 0.0),
}
_TO_CM = {"mm": 0.1, "cm": 1.0, "m": 100.0, "in": 2.54, "ft": 30.48}


def shown_unit(unit: str, system: System) -> str:
    """Return the unit a number is asked for in, as it is said after a number."""
    unit = _unit_of(unit, system)
    return pgettext("unit", "in") if unit == "in" else unit_said(unit)


def to_shown(value: float, unit: str, system: System) -> float:
    """Return a stored value in the unit it is shown in."""
    if system == "imperial" and unit in IMPERIAL:
        _, factor, offset = IMPERIAL[unit]
        return value * factor + offset
    return value


def read_number(text: str, unit: str, system: System = "metric") -> float | None:
    """Return a typed number in the stored `unit`; a unit typed after it counts, else that of the system."""
    match = re.fullmatch(r"\s*([+-]?\d+(?:[.,]\d+)*)\s*(\D.*?)?\s*", text)
    value = _value(match[1]) if match else None
    if match is None or value is None:
        return None
    typed = _typed_unit(match[2], unit) if match[2] else _unit_of(unit, system)
    if typed == unit:
        return value
    if unit == "cm" and typed in _TO_CM:
        return value * _TO_CM[typed]
    if unit == "°C" and typed == "°F":
        return (value - 32.0) * 5 / 9
    return None


def _value(text: str) -> float | None:
    """Return a number with a decimal point or comma; the language's own mark of thousands parts groups of three."""
    thousands = re.escape(numeral(1000, ",.0f").strip("01"))
    if re.fullmatch(rf"[+-]?[1-9]\d{{0,2}}(?:{thousands}\d{{3}})+(?:[.,]\d+)?", text):
        text = re.sub(rf"{thousands}(?=\d{{3}}(?!\d))", "", text)
    return float(text.replace(",", ".")) if re.fullmatch(r"[+-]?\d+(?:[.,]\d+)?", text) else None


def _typed_unit(text: str, asked: str) -> str:
    """Return a unit as questions have it; one typed just as it is asked for is that one."""
    return asked if text in (asked, unit_said(asked)) else words().units.get(text.casefold(), text)


def _unit_of(unit: str, system: System) -> str:
    return IMPERIAL[unit][0] if system == "imperial" and unit in IMPERIAL else unit
