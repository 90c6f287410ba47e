"""The pot as a shape: how much it holds, and what the next one should be."""

import math
from dataclasses import dataclass

# A pot of which only the top is known is taken to be shaped like the usual one of W-20: 12 cm wide above, 9
# below, 11 high.
_USUAL_BASE, _USUAL_HEIGHT = 9 / 12, 11 / 12

ROOT_TRIM_MOST_PERCENT = 33
"""At one repotting, take at most a third of the roots, and no more leaf than root: common practice, no
source."""


@dataclass(frozen=True, slots=True)
class Pot:
    """Inner sizes of a round pot in cm."""

    top_cm: float
    base_cm: float
    height_cm: float

    @property
    def volume_l(self) -> float:
        """Litres inside: a cut cone, pi h / 12 (D² + D d + d²) (W-20)."""
        top, base = self.top_cm, self.base_cm
        return math.pi * self.height_cm / 12 * (top**2 + top * base + base**2) / 1000

    @property
    def top_area_m2(self) -> float:
        """Open surface in m²."""
        return math.pi * (self.top_cm / 200) ** 2

    @property
    def wall_area_m2(self) -> float:
        """Area of the sloping wall in m²."""
        slope_cm = math.hypot(self.height_cm, (self.top_cm - self.base_cm) / 2)
        return math.pi * (self.top_cm + self.base_cm) / 2 * slope_cm / 1e4

    def filled_to(self, depth_cm: float) -> "Pot":
        """Return the lower part of the pot, up to `depth_cm` (at most its height)."""
        depth = min(depth_cm, self.height_cm)
        width = self.base_cm + (self.top_cm - self.base_cm) * depth / self.height_cm
        return Pot(width, self.base_cm, depth)


def usual_pot(top_cm: float, base_cm: float | None = None, height_cm: float | None = None) -> Pot:
    """Return a pot of these sizes in cm; what is not known is in the proportions of W-20."""
    return Pot(
        top_cm,
        top_cm * _USUAL_BASE if base_cm is None else base_cm,
        top_cm * _USUAL_HEIGHT if height_cm is None else height_cm,
    )


def next_pot_top_cm(top_cm: float) -> tuple[float, float]:
    """Return the least and most width in cm of the next pot: 2.5 to 5 cm (1 to 2 in) wider (W-17)."""
    return top_cm + 2.5, top_cm + 5


def room_gained_percent(old: Pot, new: Pot) -> float:
    """Return by how many percent of the old pot's volume the new one is larger (negative if smaller)."""
    return (new.volume_l / old.volume_l - 1) * 100


def leaves_to_keep(leaves: int, root_cut_percent: float) -> int:
    """Return how many leaves cut roots can carry: leaves in proportion to roots, but never the last one.

    At most `ROOT_TRIM_MOST_PERCENT` counts. Common practice, no source.
    """
    cut = min(max(root_cut_percent, 0.0), ROOT_TRIM_MOST_PERCENT)
    return max(min(leaves, 1), math.ceil(leaves * (100 - cut) / 100))
