"""Exact intervals and tests for counts and shares, in plain Python.

No numpy or scipy: importing scipy.special takes longer than every leaf measure together, and leaf counts are
small. tests/measures/leaves/test_exact.py compares each function with scipy.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

ALPHA = 0.05
"""Two-sided level of every interval and test here (95 %)."""


@dataclass(frozen=True, slots=True)
class RateRatio:
    """Rate `a` ÷ rate `b` with its central exact interval and p; `ratio` and `high` may be infinite."""

    ratio: float
    low: float
    high: float
    p: float


def poisson_interval(count: int) -> tuple[float, float]:
    """Return the exact central 95 % limits of a Poisson mean, given one count (Garwood 1936; S-05)."""
    high = _solve(lambda mean: _poisson_at_most(count, mean), count, count + 20 + 8 * math.sqrt(count + 1))
    if count == 0:
        return 0.0, high
    return _solve(lambda mean: -_poisson_at_least(count, mean), 0.0, count, goal=-ALPHA / 2), high


def share_interval(successes: int, trials: int) -> tuple[float, float]:
    """Return the exact central 95 % limits of a share (Clopper & Pearson 1934, from memory)."""
    low, high = 0.0, 1.0
    if successes > 0:
        low = _solve(lambda p: -binomial_at_least(successes, trials, p), 0.0, 1.0, goal=-ALPHA / 2)
    if successes < trials:
        high = _solve(lambda p: binomial_at_most(successes, trials, p), 0.0, 1.0)
    return low, high


def rate_ratio(count_a: int, time_a: float, count_b: int, time_b: float) -> RateRatio | None:
    """Compare two rates given their counts and times; None when nothing was counted.

    Given the sum, count_a is binomial. The p-value is central (twice the smaller tail) so that it agrees with
    the interval; the "minimum likelihood" p may be below 0.05 while the interval includes 1 (Fay 2010; S-04).
    """
    both = count_a + count_b
    if both == 0:
        return None
    share_b = time_b / time_a
    low, high = share_interval(count_a, both)
    chance = time_a / (time_a + time_b)
    tails = binomial_at_most(count_a, both, chance), binomial_at_least(count_a, both, chance)
    return RateRatio(
        ratio=count_a / count_b * share_b if count_b else math.inf,
        low=low / (1 - low) * share_b,
        high=high / (1 - high) * share_b if high < 1 else math.inf,
        p=min(1.0, 2 * min(tails)),
    )


def binomial_at_most(successes: int, trials: int, chance: float) -> float:
    """Return the probability of at most so many successes in so many trials."""
    if successes < 0:
        return 0.0
    if successes >= trials or chance <= 0:
        return 1.0
    return 0.0 if chance >= 1 else min(1.0, math.fsum(_terms(successes, trials, chance)))


def binomial_at_least(successes: int, trials: int, chance: float) -> float:
    """Return the probability of at least so many successes in so many trials."""
    return binomial_at_most(trials - successes, trials, 1 - chance)


def sum_at_least(successes: int, chances: tuple[float, ...]) -> float:
    """Return the probability of at least so many successes in trials that each have a chance of their own."""
    spread = [1.0]
    for chance in chances:
        stay = [p * (1 - chance) for p in spread] + [0.0]
        rise = [0.0] + [p * chance for p in spread]
        spread = [a + b for a, b in zip(stay, rise, strict=True)]
    return min(1.0, math.fsum(spread[successes:]))


def poisson_terms(mean: float) -> tuple[int, list[float]]:
    """Return the first count whose Poisson probability matters, and the probabilities from there on.

    Left out are counts more than eight standard deviations (and eight more) away: under 1e-14 together.
    """
    reach = 8 * math.sqrt(mean) + 8
    first = max(0, math.floor(mean - reach))
    logs = (k * math.log(mean) - mean - math.lgamma(k + 1) for k in range(first, math.ceil(mean + reach) + 1))
    return first, [math.exp(log) for log in logs]


def _terms(successes: int, trials: int, chance: float) -> list[float]:
    """Return binomial probabilities of `successes`, one fewer, … to 0."""
    log_term = (
        math.lgamma(trials + 1)
        - math.lgamma(successes + 1)
        - math.lgamma(trials - successes + 1)
        + successes * math.log(chance)
        + (trials - successes) * math.log1p(-chance)
    )
    odds = math.log1p(-chance) - math.log(chance)
    terms = []
    for k in range(successes, -1, -1):
        terms.append(math.exp(log_term))
        if log_term < -50 and k < trials * chance:
            break  # what is left to add only gets smaller
        if k:
            log_term += math.log(k / (trials - k + 1)) + odds
    return terms


def _poisson_at_most(count: int, mean: float) -> float:
    if mean <= 0:
        return 1.0
    term = math.exp(count * math.log(mean) - mean - math.lgamma(count + 1))
    total = 0.0
    for k in range(count, -1, -1):
        total += term
        term *= k / mean
        if term < total * 1e-17:
            break
    return total


def _poisson_at_least(count: int, mean: float) -> float:
    """Return P(X >= count); for count > mean, where the series falls from its first term."""
    if mean <= 0:
        return 0.0
    term = math.exp(count * math.log(mean) - mean - math.lgamma(count + 1))
    total, k = 0.0, count
    while term > total * 1e-17:
        total += term
        k += 1
        term *= mean / k
    return total


def _solve(falling: Callable[[float], float], low: float, high: float, goal: float = ALPHA / 2) -> float:
    """Return where a falling function meets the goal, by halving."""
    for _ in range(60):
        middle = (low + high) / 2
        if falling(middle) > goal:
            low = middle
        else:
            high = middle
        if high - low < 1e-10 * high:
            break
    return (low + high) / 2
