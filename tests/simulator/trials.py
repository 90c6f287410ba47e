"""Many simulated plants, and how often each leaf measure says what."""

import random
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace

from diagnose.case import Case
from diagnose.measures.leaves import measure
from diagnose.measures.measure import Given, Measure
from simulator import STEADY_AGEING, STEADY_CHANCE, STEADY_OWN_AGE, Grown, Life, counted, grow

STEADY: dict[str, Life] = {
    "old leaf follows new": STEADY_AGEING,
    "falls by chance": STEADY_CHANCE,
    "dies of own age": STEADY_OWN_AGE,
}
CHANGED_ON = 270
"""The day of the shock or of root failure; the last count is on day 364, so 94 days ago."""
CHANGED: dict[str, Life] = {
    "shock, ageing plant": replace(STEADY_AGEING, shock_day=CHANGED_ON),
    "shock, chance plant": replace(STEADY_CHANCE, shock_day=CHANGED_ON),
    "roots fail, ageing plant": replace(STEADY_AGEING, roots_fail_day=CHANGED_ON),
    "roots fail, chance plant": replace(STEADY_CHANCE, roots_fail_day=CHANGED_ON),
    "roots fail 35 d ago, ageing plant": replace(STEADY_AGEING, roots_fail_day=329),
    "shock, 15 leaves by chance": replace(STEADY_CHANCE, dli=24, fall_chance_d=1 / 180, shock_day=CHANGED_ON),
}

Found = dict[str, Measure]


def plants(life: Life, count: int, watch: Callable[[Grown], Case] = counted) -> Iterator[tuple[Grown, Found]]:
    """Yield simulated plants with their measures; the same ones on every run."""
    for seed in range(count):
        grown = grow(life, random.Random(seed))
        yield grown, {m.name: m for m in measure(Given(watch(grown), {}))}


def shares(found: list[Found], name: str) -> dict[str, float]:
    """Return how often a word was said, in percent of all plants; "-" where the measure was not given."""
    said = Counter(str(f[name].value) if name in f else "-" for f in found)
    return {word: 100 * n / len(found) for word, n in sorted(said.items())}


def has(found: list[Found], name: str) -> float:
    """Return in how many percent of all plants the measure was given."""
    return 100 * sum(name in f for f in found) / len(found)


def holds(measure: Measure, truth: float) -> bool:
    """Return whether the truth lies within the measure's limits; an unknown limit holds everything."""
    above = measure.low is None or measure.low <= truth
    return above and (measure.high is None or truth <= measure.high)
