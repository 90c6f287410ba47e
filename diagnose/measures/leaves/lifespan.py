"""How long a leaf lives: Kaplan-Meier over leaves of known opening, those still standing censored."""

import datetime as dt
import math
from collections import Counter, deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from diagnose.case import Leaf
from diagnose.language import _, marked
from diagnose.measures.leaves.history import History
from diagnose.measures.measure import Declaration, Given, Measure

LEAST_LOSSES = 2
_FEW = 5  # fewer losses than this are remarked on (common practice, no source)
# Lives matched oldest first are more alike than the true ones: on simulated plants the plain limits held the
# truth in 78 % of cases, so they are set this many times wider apart (tests/simulator).
_WIDER_FOR_COUNTS = 1.6
_Z = 1.959964  # 97.5 % point of the normal distribution

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "leaf_life_d",
        marked("days within which half the leaves are lost"),
        "Kaplan & Meier 1958; limits by Brookmeyer & Crowley 1982 on the log-log scale (S-01, S-16)",
        "d",
        least=0,
        most=20000,
        inputs=("leaves", "leaf_history", "which_leaves", "date"),
    ),
)


@dataclass(frozen=True, slots=True)
class Life:
    """One leaf's days: until it was lost, or so far."""

    days: float
    lost: bool


@dataclass(frozen=True, slots=True)
class Step:
    """The share of leaves that outlive this age, and its standard error (Greenwood)."""

    days: float
    share: float
    error: float


def measure(given: Given, history: History, leaves: tuple[Leaf, ...]) -> Iterator[Measure]:
    """Yield the median leaf life, where at least two leaves were followed from opening to loss."""
    lives, used = known_lives(given, history, leaves)
    steps = kaplan_meier(lives)
    median = age_at_share(steps)
    losses = sum(life.lost for life in lives)
    if losses < LEAST_LOSSES or median is None:
        return
    low, high = median_limits(steps)
    by_counts = "leaf_history" in used
    if by_counts:
        low = None if low is None else max(0.0, median - _WIDER_FOR_COUNTS * (median - low))
        high = None if high is None else median + _WIDER_FOR_COUNTS * (high - median)
    remark = _remark(losses, len(lives) - losses, by_counts=by_counts)
    yield Measure("leaf_life_d", median, used, low, high, remark=remark)


def _remark(lost: int, standing: int, *, by_counts: bool) -> str:
    if lost < _FEW:
        text = (
            _(
                "{lost} lost and {standing} standing leaves: interval wide; ages from counts, oldest leaf first"
            )
            if by_counts
            else _("{lost} lost and {standing} standing leaves: interval wide")
        )
    elif by_counts:
        text = _("{lost} lost and {standing} standing leaves; ages from counts, oldest leaf first")
    else:
        text = _("{lost} lost and {standing} standing leaves")
    return text.format(lost=lost, standing=standing)


def known_lives(
    given: Given, history: History, leaves: tuple[Leaf, ...]
) -> tuple[tuple[Life, ...], tuple[str, ...]]:
    """Return the lives of leaves with a known opening, and the answers they come from."""
    single = lives_of_leaves(leaves, given.case.date)
    if sum(life.lost for life in single) >= LEAST_LOSSES or history.source != "leaf_history":
        return single, ("leaves",)
    if given.word("oldest_first") == "yes":
        return lives_of_counts(history), ("leaf_history",)
    if given.word("oldest_first") is None and given.word("which_leaves") == "oldest":
        return lives_of_counts(history), ("leaf_history", "which_leaves")
    return (), ()


def lives_of_leaves(leaves: Iterable[Leaf], until: dt.date) -> tuple[Life, ...]:
    """Return the lives of single leaves; those of unknown opening tell no age."""
    return tuple(
        Life(((leaf.lost or until) - leaf.opened).days, leaf.lost is not None)
        for leaf in leaves
        if leaf.opened
    )


def lives_of_counts(history: History) -> tuple[Life, ...]:
    """Match losses with openings, the oldest leaf first; each is dated to the middle between two counts.

    Matched in another order the single lives would differ but not their mean. Where new or lost is unknown,
    all leaves then standing are followed no longer.
    """
    lives: list[Life] = []
    standing: deque[float | None] = deque()
    day = 0.0
    for i, stretch in enumerate(history.stretches):
        if i == 0:
            standing.extend([None] * (stretch.present_before or 0))
        if stretch.new is None or stretch.lost is None:
            lives += [Life(day - opened, lost=False) for opened in standing if opened is not None]
            standing = deque([None] * (stretch.present_after or 0))
        else:
            middle = day + stretch.days / 2
            standing.extend([middle] * stretch.new)
            for _ in range(min(stretch.lost, len(standing))):
                opened = standing.popleft()
                if opened is not None:
                    lives.append(Life(middle - opened, lost=True))
        day += stretch.days
    return (*lives, *(Life(day - opened, lost=False) for opened in standing if opened is not None))


def kaplan_meier(lives: Iterable[Life]) -> tuple[Step, ...]:
    """Return the share of leaves that outlive each age at which one was lost.

    A leaf last seen standing on the day of a loss counts as having been at risk of it.
    """
    leaving = Counter(life.days for life in lives)
    lost = Counter(life.days for life in lives if life.lost)
    at_risk, share, sum_of_ratios = leaving.total(), 1.0, 0.0
    steps = []
    for days in sorted(leaving):
        gone = lost[days]
        if gone:
            share *= 1 - gone / at_risk
            if at_risk > gone:
                sum_of_ratios += gone / (at_risk * (at_risk - gone))
            steps.append(Step(days, share, share * math.sqrt(sum_of_ratios)))
        at_risk -= leaving[days]
    return tuple(steps)


def age_at_share(steps: Iterable[Step], share: float = 0.5) -> float | None:
    """Return the first age at which no more than this share stands; None if it is not reached."""
    return next((step.days for step in steps if step.share <= share + 1e-12), None)


def median_limits(steps: Iterable[Step]) -> tuple[float | None, float | None]:
    """Return 95 % limits of the median: the ages at which the limits of the share pass one half."""
    limits = [(step.days, *_share_limits(step)) for step in steps]
    low = next((days for days, lower, _ in limits if lower <= 0.5), None)
    high = next((days for days, _, upper in limits if upper <= 0.5), None)
    return low, high


def mean_life(lives: tuple[Life, ...]) -> float | None:
    """Return the area under the curve, which is the mean life; None unless the curve comes down to zero."""
    area, share, before = 0.0, 1.0, 0.0
    for step in kaplan_meier(lives):
        area += share * (step.days - before)
        share, before = step.share, step.days
    return area if lives and share < 1e-12 else None


def _share_limits(step: Step) -> tuple[float, float]:
    """Return 95 % limits of a share on the log-log scale, which keeps them between 0 and 1."""
    if step.share <= 0:
        return 0.0, 0.0
    log_share = math.log(step.share)
    half = _Z * step.error / (step.share * -log_share)
    return math.exp(log_share * math.exp(half)), math.exp(log_share * math.exp(-half))
