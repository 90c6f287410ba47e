"""How many decibans each strength word stands for, and the bands that scores are read by.

The words are the middles of the bands of Jeffreys, *Theory of Probability*, 3rd ed. 1961 (0-5 barely worth
mentioning, 5-10 substantial, 10-15 strong, 15-20 very strong, above 20 decisive); `moderate` is the border of the
first two. All are multiples of 0.5 and groups are counted in quarters, so that all sums are exact in binary numbers.
"""

import math

from diagnose.rulebase.model import Strength

DECIBANS: dict[Strength, float] = {
    "slight": 2.5,
    "moderate": 5.0,
    "substantial": 7.5,
    "strong": 12.5,
    "very_strong": 17.5,
    "decisive": 22.5,
}

GROUP_DISCOUNT = 0.5
"""Share at which each line of a group counts against the next stronger one that speaks the same way (common practice,
no source): lines that look at one thing repeat each other, so the fifth adds next to nothing."""

CLOSE_DB = 5.0
"""Two scores no further apart are too close to call: "barely worth mentioning" (Jeffreys 1961)."""


def probability(score_db: float) -> float:
    """Return the probability of a score: its odds are 10^(score/10).

    Good 1950, *Probability and the Weighing of Evidence*.
    """
    return 1.0 / (1.0 + math.pow(10.0, -score_db / 10.0))
