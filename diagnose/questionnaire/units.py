"""Metric and imperial: questions are stored metric; what is typed may be either."""

import re
from typing import Literal

System = Literal["metric", "imperial"]

# unit stored -> (unit shown when imperial, factor, offset): imperial = metric * factor + offset (exact definitions)
IMPERIAL: dict[str, tuple[str, float, float]] = {
    "°C": ("°F", 9 / 5, 32.0),
    "cm": ("in", 1 / 2.54, 0.0),
}
_SPELLED = {"c": "°C", "°c": "°C", "f": "°F", "°f": "°F", '"': "in", "inch": "in", "inches": "in", "ft": "ft"}
_SPELLED |= {"mm": "mm", "m": "m", "cm": "cm", "in": "in", "%": "%", "days": "d", "day": "d", "d": "d"}
_TO_CM = {"mm": 0.1, "cm": 1.0, "m": 100.0, "in": 2.54, "ft": 30.48}


def shown_unit(unit: str, system: System) -> str:
    """Return the unit a number is asked for in."""
    return IMPERIAL[unit][0] if system == "imperial" and unit in IMPERIAL else unit


def to_shown(value: float, unit: str, system: System) -> float:
    """Return a stored value in the unit it is shown in."""
    if system == "imperial" and unit in IMPERIAL:
        _, factor, offset = IMPERIAL[unit]
        return value * factor + offset
    return value


def read_number(text: str, unit: str, system: System = "metric") -> float | None:
    """Return a typed number in the stored `unit`; a unit typed after it counts, else that of the system."""
    match = re.fullmatch(r"\s*([+-]?\d+(?:[.,]\d+)?)\s*(\S*)\s*", text)
    if not match:
        return None
    value = float(match[1].replace(",", "."))
    typed = _SPELLED.get(match[2].lower(), match[2]) or shown_unit(unit, system)
    if typed == unit:
        return value
    if unit == "cm" and typed in _TO_CM:
        return value * _TO_CM[typed]
    if unit == "°C" and typed == "°F":
        return (value - 32.0) * 5 / 9
    return None
