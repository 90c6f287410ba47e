"""How each plant of the collection is: leaves, their trend, losses against its own past, and what is due."""

import datetime as dt
import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from diagnose.journal.records import LeafTotals, PlantRecord
from diagnose.measures.leaves.exact import ALPHA, binomial_at_least, binomial_at_most
from diagnose.measures.leaves.history import FRESH_D
from diagnose.measures.leaves.rates import could_show

COUNT_EVERY_D = 14
"""A plant not counted for longer is due (common practice, no source: with monthly counts a change shows late)."""

Losses = Literal["rising", "steady", "falling", "too few", "no recent count"]


@dataclass(frozen=True, slots=True)
class Overview:
    """One plant at a glance."""

    plant: PlantRecord
    leaves: int | None
    change: int | None
    """Leaves now less those at the start of the recent part of its counts (the last 90 days as a rule)."""
    change_days: int
    lost_per_30d: float | None
    lost_per_30d_before: float | None
    losses: Losses
    """Losses per standing leaf and day, recent against earlier: the exact test of `measures.leaves.rates`."""
    ratio: float | None
    """Recent ÷ earlier rate; infinite if none fell earlier."""
    p: float | None
    """Two-sided, central."""
    p_rise: float | None
    """One-sided: as many recent losses or more, if nothing had changed."""
    days_since_count: int | None
    case_open: bool
    due: tuple[str, ...]
    """What waits to be done: "count", "look again"."""


def overview(
    plants: Iterable[PlantRecord],
    totals: Iterable[LeafTotals],
    today: dt.date,
    open_cases: Collection[int] = (),
    look_again: Collection[int] = (),
) -> tuple[Overview, ...]:
    """Return every plant at a glance; `open_cases` and `look_again` hold ids of plants."""
    by_plant: Mapping[int, LeafTotals] = {total.plant_id: total for total in totals}
    return tuple(
        _one(
            plant,
            by_plant.get(plant.id, LeafTotals(plant.id)),
            today,
            plant.id in open_cases,
            plant.id in look_again,
        )
        for plant in plants
    )


def _one(
    plant: PlantRecord, total: LeafTotals, today: dt.date, case_open: bool, look_again: bool
) -> Overview:
    since = None if total.last_on is None else (today - total.last_on).days
    fresh = since is not None and since <= FRESH_D
    losses, ratio, p, p_rise = _tested(total) if fresh else ("no recent count", None, None, None)
    count_due = since is None or since >= COUNT_EVERY_D
    return Overview(
        plant=plant,
        leaves=total.present,
        change=_change(total),
        change_days=total.days_recent,
        lost_per_30d=_per_30d(total.lost_recent, total.days_recent) if fresh else None,
        lost_per_30d_before=_per_30d(total.lost_earlier, total.days_earlier),
        losses=losses,
        ratio=ratio,
        p=p,
        p_rise=p_rise,
        days_since_count=since,
        case_open=case_open,
        due=(("look again",) if look_again else ()) + (("count",) if count_due else ()),
    )


def _tested(total: LeafTotals) -> tuple[Losses, float | None, float | None, float | None]:
    """Compare two rates exactly, given the sum of their counts, as `rate_ratio` does but without its interval."""
    now, before = total.lost_recent, total.lost_earlier
    if not total.leaf_days_recent or not total.leaf_days_earlier or now + before == 0:
        return "too few", None, None, None
    chance = total.leaf_days_recent / (total.leaf_days_recent + total.leaf_days_earlier)
    p_rise = binomial_at_least(now, now + before, chance)
    p = min(1.0, 2 * min(p_rise, binomial_at_most(now, now + before, chance)))
    ratio = now / total.leaf_days_recent / (before / total.leaf_days_earlier) if before else math.inf
    if p <= ALPHA:
        return "rising" if ratio > 1 else "falling", ratio, p, p_rise
    return "steady" if could_show(now + before, chance) else "too few", ratio, p, p_rise


def _change(total: LeafTotals) -> int | None:
    if total.counts < 2 or total.present is None or total.present_before is None:
        return None
    return total.present - total.present_before


def _per_30d(count: int, days: int) -> float | None:
    return 30 * count / days if days else None
