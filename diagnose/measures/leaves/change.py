"""Where in a row of counts a Poisson rate changed, how well that is known, and how sure it is at all."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from diagnose.measures.leaves.exact import poisson_terms

LIKELIHOOD_DROP = 1.92  # half the 95 % point of chi-square with 1 degree of freedom
_SURELY = 1e-6  # a bound on p below this needs no exact value
_EXACT_UP_TO = 500  # with more losses than this p is the bound, which is too large rather than too small
_NEGLIGIBLE = 1e-15


@dataclass(frozen=True, slots=True)
class Change:
    """A change of rate after stretch number `index` (0 is after the first), and how sure it is.

    `earliest` and `latest` are the indices whose likelihood is close to the best one's.
    """

    index: int
    earliest: int
    latest: int
    rate_before: float
    rate_after: float
    p: float


def rate_change(
    counts: Sequence[int], exposures: Sequence[float], *, rises_only: bool = False
) -> Change | None:
    """Find the one change of a Poisson rate that fits best; None with fewer than two stretches or no count.

    `exposures` are days, or leaves times days, all above 0. The p-value is the exact probability, given the
    total, that a steady rate shows a likelihood ratio as large at any date: it allows for having looked at
    all of them.
    """
    total = sum(counts)
    if len(counts) < 2 or total == 0:
        return None
    ends, sums = list(accumulate(exposures)), list(accumulate(counts))
    span = ends[-1]

    def gain(before: int, end: float) -> float:
        """Return the log likelihood ratio of a change at this point with so many counted before it."""
        if rises_only and before * span >= total * end:
            return 0.0
        return _part(before, end) + _part(total - before, span - end) - _part(total, span)

    gains = [gain(before, end) for before, end in zip(sums[:-1], ends[:-1], strict=True)]
    best = max(gains)
    if best <= 0:
        return None
    index = gains.index(best)
    near = [i for i, value in enumerate(gains) if value >= best - LIKELIHOOD_DROP]
    # Chernoff: at one date, a steady rate gives a ratio this large with at most this chance on each side.
    p = math.exp(-best) * len(gains) * (1 if rises_only else 2)
    if p > _SURELY and total <= _EXACT_UP_TO:
        p = 1 - _stays_below(lambda at, seen: gain(seen, ends[at]) >= best - 1e-9, total, exposures)
    before, end = sums[index], ends[index]
    after = (total - before) / (span - end)
    return Change(index, near[0], near[-1], before / end, after, min(1.0, max(0.0, p)))


def _part(count: int, exposure: float) -> float:
    """Return the part of the Poisson log likelihood that depends on where the counts fall."""
    return count * math.log(count / exposure) if count else 0.0


def _stays_below(too_far: Callable[[int, int], bool], total: int, exposures: Sequence[float]) -> float:
    """Return the chance that a steady rate's running count, given its total, is never too far off.

    The running count is followed from date to date as a sum of Poisson numbers, dropping what is too far, and
    the outcome is divided by the chance of the total itself.
    """
    span = sum(exposures)
    reached = {0: 1.0}
    for at, exposure in enumerate(exposures):
        first, terms = poisson_terms(total * exposure / span)
        onward: dict[int, float] = {}
        for seen, p in reached.items():
            for more, term in enumerate(terms, start=seen + first):
                if more > total:
                    break
                onward[more] = onward.get(more, 0.0) + p * term
        last = at == len(exposures) - 1
        reached = {s: p for s, p in onward.items() if p > _NEGLIGIBLE and (last or not too_far(at, s))}
    return reached.get(total, 0.0) / math.exp(total * math.log(total) - total - math.lgamma(total + 1))
