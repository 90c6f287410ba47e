"""Whether the oldest leaves go first more often than chance would have it."""

import datetime as dt
import math
from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.case import Leaf
from diagnose.language import _, marked, numeral
from diagnose.measures.leaves.exact import ALPHA, share_interval, sum_at_least
from diagnose.measures.leaves.history import History
from diagnose.measures.measure import Declaration, Measure

MOSTLY = 0.8  # below this share, surely, the oldest do not mostly go first (common practice, no source)
_FROM = ("leaf_history", "leaves")

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "oldest_share_percent",
        marked("share of losses that took the oldest leaf, where it is known which one went"),
        "exact binomial interval, Clopper & Pearson 1934 (from memory)",
        "%",
        least=0,
        most=100,
        inputs=_FROM,
    ),
    Declaration(
        "oldest_first",
        marked("whether the oldest leaf goes more often than a leaf picked by chance would be the oldest"),
        "exact test: each loss has its own chance, 1 ÷ leaves standing",
        words=("yes", "no"),
        inputs=_FROM,
    ),
)


@dataclass(frozen=True, slots=True)
class Loss:
    """A loss of one leaf, or of several between two counts: was it the oldest, how likely by chance."""

    oldest: bool
    chance: float


def measure(history: History, leaves: tuple[Leaf, ...]) -> Iterator[Measure]:
    """Yield the share of oldest leaves among the losses and whether it is beyond chance."""
    source, losses = "leaf_history", losses_of_counts(history)
    if not losses:
        source, losses = "leaves", losses_of_leaves(leaves)
    if not losses:
        return
    oldest = sum(loss.oldest for loss in losses)
    low, high = share_interval(oldest, len(losses))
    remark = _("{oldest} of {losses} losses took the oldest leaf").format(oldest=oldest, losses=len(losses))
    share = oldest / len(losses)
    yield Measure("oldest_share_percent", 100 * share, (source,), 100 * low, 100 * high, remark=remark)
    p = sum_at_least(oldest, tuple(loss.chance for loss in losses))
    if p <= ALPHA:
        yield Measure("oldest_first", "yes", (source,), remark=f"{remark}; p = {numeral(p, '.2g')}")
    elif high < MOSTLY:
        yield Measure("oldest_first", "no", (source,), remark=remark)


def losses_of_counts(history: History) -> tuple[Loss, ...]:
    """Return the losses of which the grower noted which leaf went.

    The chance that all k lost are the k oldest of n is 1 ÷ (n over k); n leaves out those opened meanwhile.
    """
    losses = []
    for stretch in history.stretches:
        if (
            stretch.which
            and stretch.lost
            and stretch.present_before
            and stretch.present_before >= stretch.lost
        ):
            chance = 1 / math.comb(stretch.present_before, stretch.lost)
            losses.append(Loss(stretch.which == "oldest", chance))
    return tuple(losses)


def losses_of_leaves(leaves: tuple[Leaf, ...]) -> tuple[Loss, ...]:
    """Return the losses of single leaves at which the age of every leaf then standing was known."""
    losses = []
    for leaf in leaves:
        if leaf.lost is None or leaf.opened is None:
            continue
        ages = _standing_openings(leaves, leaf.lost)
        if ages is not None:
            losses.append(Loss(leaf.opened == min(ages), ages.count(min(ages)) / len(ages)))
    return tuple(losses)


def _standing_openings(leaves: tuple[Leaf, ...], on: dt.date) -> list[dt.date] | None:
    """Return when the leaves standing on a day had opened; None if that is unknown of any."""
    opened = []
    for leaf in leaves:
        if leaf.lost is not None and leaf.lost < on:
            continue
        if leaf.opened is None:
            return None
        if leaf.opened <= on:
            opened.append(leaf.opened)
    return opened
