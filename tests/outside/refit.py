"""Two global numbers, fitted on all sheets but one and tried on the one left out: would other ones be honester?

`shift_db` is added to every prior and `scale` stretches all evidence. As shipped they are 0 and 1; a fit that lies
elsewhere says how far the shipped level of priors or of strengths is from what the sheets ask for.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from itertools import product

from diagnose.calibration import Pair, brier
from diagnose.ranking import Ranking
from diagnose.rulebase.strengths import probability
from symptom_rows import Row

SHIFTS_DB = tuple(range(-6, 7))
SCALES = (0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4, 1.5)

Ranked = Sequence[tuple[Row, Ranking]]


@dataclass(frozen=True)
class Numbers:
    """The two numbers of a fit."""

    shift_db: float = 0.0
    scale: float = 1.0


SHIPPED = Numbers()


def fitted(ranked: Ranked) -> Numbers:
    """Return the numbers of least Brier score on these rows."""
    return min(
        (Numbers(shift, scale) for shift, scale in product(SHIFTS_DB, SCALES)),
        key=lambda numbers: (brier(pairs(ranked, numbers)), abs(numbers.shift_db), abs(numbers.scale - 1)),
    )


def pairs(ranked: Ranked, numbers: Numbers = SHIPPED) -> list[Pair]:
    """Return a (probability, published) pair for every cause of every row."""
    return [
        (probability(prior + numbers.shift_db + numbers.scale * (score - prior)), cause in row.causes)
        for row, ranking in ranked
        for cause, prior, score in _priors_and_scores(ranking)
    ]


def left_out(ranked: Ranked) -> list[Pair]:
    """Return the pairs of every sheet with the numbers fitted on all other sheets."""
    sheets = _sheets(row for row, _ in ranked)
    found: list[Pair] = []
    for sheet in sheets:
        rest = [one for one in ranked if _sheet(one[0]) != sheet]
        found += pairs([one for one in ranked if _sheet(one[0]) == sheet], fitted(rest))
    return found


def _priors_and_scores(ranking: Ranking) -> Iterable[tuple[str, float, float]]:
    return ((ranked.id, ranked.lines[0].decibans, ranked.score_db) for ranked in ranking.causes)


def _sheet(row: Row) -> str:
    return row.id.partition("::")[0]


def _sheets(rows: Iterable[Row]) -> Collection[str]:
    return dict.fromkeys(_sheet(row) for row in rows)
