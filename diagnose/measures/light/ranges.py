"""A value with its spread, and twelve of them: a year of light."""

from typing import NamedTuple


class Range(NamedTuple):
    """The daily light integral in mol/m²/d: low, expected and high."""

    low: float
    expected: float
    high: float

    def plus(self, other: "Range") -> "Range":
        """Return the sum, low to low and high to high."""
        return Range(self.low + other.low, self.expected + other.expected, self.high + other.high)

    def times(self, factor: float) -> "Range":
        """Return the range made larger or smaller by a factor that is not negative."""
        return Range(self.low * factor, self.expected * factor, self.high * factor)


Year = tuple[Range, ...]
"""Twelve ranges, January to December."""

DARK = Range(0.0, 0.0, 0.0)
