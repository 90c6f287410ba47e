"""How firm a ranking is: how it stands up to other weights, and to leaving out any one answer."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from diagnose.language import _, marked
from diagnose.ranking import Weight
from diagnose.reasoning.known import answered
from diagnose.reasoning.suppose import Supposing
from diagnose.rulebase.model import Question
from diagnose.rulebase.strengths import GROUP_DISCOUNT

if TYPE_CHECKING:  # numpy is loaded only when weights are jittered
    import numpy as np

    Rows = np.ndarray[tuple[int, int], np.dtype[np.float64]]
    Numbers = np.ndarray[tuple[int], np.dtype[np.float64]]

JITTERS = 1_000
SPREAD = 0.30
"""Standard deviation of a jittered weight, as a share of the weight (common practice, no source): moves two of three
"substantial" lines (7.5 dB) by less than half a grade of Jeffreys (2.5 dB)."""

SEED = 20_251
"""Fixed, so that the same case always gets the same answer."""

BANDS = (
    # least share of jitters in which the first stays first -> word (common practice, no source)
    (0.95, marked("very firm")),
    (0.80, marked("firm")),
    (0.60, marked("fairly firm")),
    (0.40, marked("shaky")),
    (0.00, marked("a toss-up")),
)


@dataclass(frozen=True, slots=True)
class Without:
    """What would come of the ranking without one answer."""

    question: Question
    first: str
    """The cause that would come first."""
    lead_db: float
    """By how much today's first would lead the best of the others; negative: it would be behind."""


@dataclass(frozen=True, slots=True)
class Firmness:
    """How firm the first place is."""

    stays_first: float
    """Share of jitters in which the first stays first."""
    stays_in_two: float
    """Share in which it stays among the first two."""
    word: str
    lead_db: float
    """By how much the first leads the second."""
    without: tuple[Without, ...]
    """Every answer left out in turn, the one it hangs on most first."""

    @property
    def hangs_on(self) -> Without | None:
        """The answer that, left out, costs the first most of its lead; None if none costs it any."""
        return self.without[0] if self.without and self.without[0].lead_db < self.lead_db else None


def how_firm(supposing: Supposing) -> Firmness:
    """Return how firm the first place is under jittered weights and without any one answer."""
    first, second = stays(supposing)
    word = next(word for least, word in BANDS if first >= least)
    return Firmness(
        first, second, _(word), _lead(supposing.now.scores, supposing.now.first), without_one(supposing)
    )


def without_one(supposing: Supposing) -> tuple[Without, ...]:
    """Return what each answer left out would do, the largest loss of lead first."""
    first = supposing.now.first
    found = []
    for question in answered(supposing.known):
        after = supposing.suppose({question.id: None})
        found.append(Without(question, after.first, _lead(after.scores, first)))
    return tuple(sorted(found, key=lambda one: (one.lead_db, one.question.id)))


def stays(supposing: Supposing, spread: float = SPREAD, jitters: int = JITTERS) -> tuple[float, float]:
    """Return the shares of jitters in which the first stays first, and in the first two.

    Every weight and prior is drawn anew from a normal distribution around itself, each on its own.
    """
    import numpy as np  # noqa: PLC0415 - slow to load, and seldom asked for

    causes = list(supposing.now.scores)
    lines = [Weight(cause, None, supposing.scales.priors[cause]) for cause in causes]
    lines += [w for f in supposing.now.firings if (w := supposing.scales.of(f.rule)) is not None]
    weights = np.array([line.decibans for line in lines])
    random = np.random.default_rng(SEED)
    drawn = weights + spread * np.abs(weights) * random.standard_normal((jitters, len(lines)))
    scores = np.zeros((jitters, len(causes)))
    blocks: dict[tuple[str, str], list[int]] = {}
    for place, line in enumerate(lines):
        blocks.setdefault((line.cause, line.group or f"{place}"), []).append(place)
    for (cause, _block), places in blocks.items():
        scores[:, causes.index(cause)] += grouped(drawn[:, places])
    here = causes.index(supposing.now.first)
    names = np.array(causes)
    ahead = (scores > scores[:, [here]]) | ((scores == scores[:, [here]]) & (names < names[here]))
    behind = ahead.sum(axis=1)
    return float((behind == 0).mean()), float((behind <= 1).mean())


def grouped(weights: "Rows") -> "Numbers":
    """Return row by row what the lines of one group come to: `ranking.Scales.group` for many rows at once."""
    import numpy as np  # noqa: PLC0415 - slow to load, and seldom asked for

    places = GROUP_DISCOUNT ** np.arange(weights.shape[1])
    counted = [-np.sort(-np.maximum(side, 0), axis=1) @ places for side in (weights, -weights)]
    result: Numbers = (np.round(4 * counted[0]) - np.round(4 * counted[1])) / 4
    return result


def _lead(scores: Mapping[str, float], first: str) -> float:
    return scores[first] - max((score for cause, score in scores.items() if cause != first), default=0.0)
