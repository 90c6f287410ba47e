"""Tests and intervals for many plants and few cases, in plain Python but for Beta quantiles (scipy, when called)."""

import math
from collections.abc import Callable, Sequence

FALSE_DISCOVERIES = 0.05
"""Share of false discoveries that is put up with among all that is told (common practice: 5 %)."""
TAIL = 0.025
"""Probability left out at each end of an interval (95 %)."""
_POINTS = 4000
"""Quantiles of the other share: limits then lie within 0.01 dB of those with 400,000 in three cases tried, one with no
hit and one with nothing but hits among them."""


def adjusted(p_values: Sequence[float]) -> tuple[float, ...]:
    """Return adjusted p-values: those at most q are discoveries at a false discovery rate of q.

    Benjamini & Hochberg 1995, J. R. Statist. Soc. B 57:289-300 (linear step-up).
    """
    count = len(p_values)
    order = sorted(range(count), key=p_values.__getitem__, reverse=True)
    result = [1.0] * count
    least = 1.0
    for place, index in enumerate(order):
        least = min(least, p_values[index] * count / (count - place))
        result[index] = least
    return tuple(result)


def drawn_at_least(hits: int, drawn: int, marked: int, total: int) -> float:
    """Return the chance of at least so many marked ones among `drawn` of `total`, of which `marked` are marked.

    The upper tail of the hypergeometric distribution: Fisher's exact test of a 2 x 2 table, one-sided (Fisher 1935,
    from memory).
    """
    ways = math.comb(total, drawn)
    most = min(drawn, marked)
    return min(
        1.0,
        sum(math.comb(marked, k) * math.comb(total - marked, drawn - k) for k in range(hits, most + 1))
        / ways,
    )


def share_limits(successes: int, trials: int) -> tuple[float, float]:
    """Return Jeffreys' 95 % interval of a share: quantiles of Beta(successes + ½, failures + ½).

    Brown, Cai & DasGupta 2001, Statistical Science 16:101-133; 0 and 1 themselves where nothing or all succeeded.
    """
    from scipy.special import betaincinv  # noqa: PLC0415 - heavy, and needed by `learn` alone

    a, b = successes + 0.5, trials - successes + 0.5
    low = 0.0 if successes == 0 else float(betaincinv(a, b, TAIL))
    high = 1.0 if successes == trials else float(betaincinv(a, b, 1 - TAIL))
    return low, high


def ratio_of_shares(hits_a: int, of_a: int, hits_b: int, of_b: int) -> tuple[float, float, float]:
    """Return (median, low, high) of share a ÷ share b, each with Jeffreys' prior Beta(½, ½), central 95 %.

    The two posteriors are independent, so P(a/b <= t) is the mean of P(a <= t·b) over b's quantiles.
    """
    import numpy as np  # noqa: PLC0415 - heavy, and needed by `learn` alone
    from scipy.special import betainc, betaincinv  # noqa: PLC0415 - the same

    a = hits_a + 0.5, of_a - hits_a + 0.5
    b = hits_b + 0.5, of_b - hits_b + 0.5
    shares_b = betaincinv(*b, (np.arange(_POINTS) + 0.5) / _POINTS)

    def below(log_ratio: float) -> float:
        return float(np.mean(betainc(*a, np.minimum(1.0, math.exp(log_ratio) * shares_b))))

    median, low, high = (math.exp(_solve(below, goal)) for goal in (0.5, TAIL, 1 - TAIL))
    return median, low, high


def _solve(rising: Callable[[float], float], goal: float) -> float:
    low, high = -25.0, 25.0
    while high - low > 1e-4:
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < goal else (low, middle)
    return (low + high) / 2
