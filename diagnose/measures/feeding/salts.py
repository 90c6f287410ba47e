"""Salts in the pot: build-up by watering, and what a reading of the medium means."""

import math
from dataclasses import dataclass

USUAL_DRAWN = 0.5
"""Share of the pot's water that is used before a watering in good time: from memory."""

_NOTHING = 1e-9  # a leached share below this is none

HIGHEST_RATIO = 100.0
"""Beyond this salts would come out of solution as crust; the sum is cut here."""

# Upper ends of very low, low, normal and high, in mS/cm: University of Massachusetts Extension, soilless
# media, table 2, second-hand (N-09). What that table calls extreme counts as very high.
_CLASSES = ("very_low", "low", "normal", "high", "very_high")
_UPPER_ENDS = {
    "one_to_two": (0.3, 0.8, 1.3, 1.8),
    "saturated_paste": (0.8, 2.0, 3.5, 5.0),
    "pour_through": (1.0, 2.6, 4.6, 6.5),
}


@dataclass(frozen=True, slots=True)
class Habit:
    """How salts come and go: share of the water that drains away, share of salts the plant leaves."""

    leached: float
    left: float


def salt_ratio(waterings: float, habit: Habit, drawn: float = USUAL_DRAWN) -> float:
    """Return the salts in the pot's water over those in what is poured, after so many waterings from 1.

    Each watering refills what was `drawn` (a share of the pot's water) and a little more, which mixes and
    drains. In the long run this is `left / leached`; with all salts left, that is the leaching requirement of
    the US Bureau of Reclamation (1993): share drained = conductivity of water poured / of water drained. With
    nothing drained it rises on.
    """
    if habit.leached < _NOTHING:
        return min(HIGHEST_RATIO, 1 + waterings * drawn * habit.left)
    # share of the first salts that is washed out by now; expm1 and log1p keep small shares exact
    washed = -math.expm1(-waterings * math.log1p(drawn * habit.leached / (1 - habit.leached)))
    return min(HIGHEST_RATIO, 1 + washed * (habit.left / habit.leached - 1))


def medium_ec_class(ec_ms_cm: float, method: str) -> str:
    """Return the class of a medium's conductivity in mS/cm by the method of the sample (N-09).

    Raises KeyError for a method other than pour_through, saturated_paste or one_to_two.
    """
    return _CLASSES[sum(ec_ms_cm >= end for end in _UPPER_ENDS[method])]
