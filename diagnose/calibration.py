"""How honest stated probabilities are, by what came true. Pure functions over (probability, came true) pairs."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from diagnose.ranking import Ranking

Pair = tuple[float, bool]
"""A stated probability, and whether it came true."""

TENTHS = tuple(edge / 10 for edge in range(11))


@dataclass(frozen=True, slots=True)
class Bin:
    """Forecasts of about one probability."""

    low: float
    high: float
    count: int
    stated: float
    """Mean stated probability."""
    came_true: float
    """Share that came true."""


@dataclass(frozen=True, slots=True)
class Murphy:
    """The parts of a Brier score: reliability - resolution + uncertainty + within (Murphy 1973, J. Appl. Meteorol.).

    `within` is what is left over when the forecasts of a bin are not all equal (Stephenson et al. 2008).
    """

    reliability: float
    """How far the stated probabilities lie from what came true; 0 is honest."""
    resolution: float
    """How far what came true differs from bin to bin; the more the better."""
    uncertainty: float
    """How undecided the outcomes are in themselves."""
    within: float


@dataclass(frozen=True, slots=True)
class Calibration:
    """All figures of one set of forecasts."""

    count: int
    brier: float
    expected_error: float
    murphy: Murphy
    bins: tuple[Bin, ...]


def brier(pairs: Collection[Pair]) -> float:
    """Return the mean squared difference of probability and outcome; 0 is perfect (Brier 1950)."""
    return sum((stated - came_true) ** 2 for stated, came_true in pairs) / len(pairs)


def bins(pairs: Iterable[Pair], edges: Sequence[float] = TENTHS) -> tuple[Bin, ...]:
    """Return the reliability table: pairs by stated probability between edges (upper edge left out, save the last).

    Bins that hold no pair are left out.
    """
    held: dict[int, list[Pair]] = defaultdict(list)
    for pair in pairs:
        place = next((n for n, edge in enumerate(edges[1:]) if pair[0] < edge), len(edges) - 2)
        held[place].append(pair)
    return tuple(
        Bin(
            edges[place],
            edges[place + 1],
            len(inside),
            sum(stated for stated, _ in inside) / len(inside),
            sum(came_true for _, came_true in inside) / len(inside),
        )
        for place, inside in sorted(held.items())
    )


def expected_error(table: Collection[Bin]) -> float:
    """Return the expected calibration error: the mean gap of stated and come true, by count (Naeini et al. 2015)."""
    total = sum(one.count for one in table)
    return sum(one.count / total * abs(one.stated - one.came_true) for one in table)


def murphy(pairs: Collection[Pair], table: Collection[Bin]) -> Murphy:
    """Return the parts of the Brier score for one table of bins."""
    total = len(pairs)
    rate = sum(came_true for _, came_true in pairs) / total
    reliability = sum(one.count * (one.stated - one.came_true) ** 2 for one in table) / total
    resolution = sum(one.count * (one.came_true - rate) ** 2 for one in table) / total
    uncertainty = rate * (1 - rate)
    return Murphy(
        reliability, resolution, uncertainty, brier(pairs) - (reliability - resolution + uncertainty)
    )


def calibration(pairs: Collection[Pair], edges: Sequence[float] = TENTHS) -> Calibration:
    """Return all figures of a set of forecasts; there must be at least one."""
    table = bins(pairs, edges)
    return Calibration(len(pairs), brier(pairs), expected_error(table), murphy(pairs, table), table)


def top_share(ranks: Collection[int], places: int) -> float:
    """Return the share of ranks (from 1) within the first places."""
    return sum(rank <= places for rank in ranks) / len(ranks)


def pairs_of(ranking: Ranking, true: Collection[str]) -> list[Pair]:
    """Return a pair for every cause of a ranking: its probability, and whether it is among the true ones."""
    return [(ranked.probability, ranked.id in true) for ranked in ranking.causes]
