"""The leaf history as the measures see it: stretches of days with leaves opened and lost."""

import datetime as dt
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from diagnose.case import Leaf, LeafPosition

FRESH_D = 90
"""A history that ended longer ago says nothing about now (common practice, no source: one season)."""
_MOST_STRETCHES = 1000  # single leaves followed longer than this many days are binned coarser


@dataclass(frozen=True, slots=True)
class Stretch:
    """The days after one count up to the next; None where a number is unknown or contradicts another."""

    start: dt.date
    end: dt.date
    new: int | None
    lost: int | None
    present_before: int | None = None
    present_after: int | None = None
    which: LeafPosition | None = None

    @property
    def days(self) -> int:
        """Return how many days the stretch covers."""
        return (self.end - self.start).days

    @property
    def leaf_days(self) -> float:
        """Return the days times the leaves that stood; where they are unknown the plant counts as one."""
        if self.present_before is None or self.present_after is None:
            return float(self.days)
        # Leaves that opened and fell between two counts stood too, if briefly.
        return self.days * max(self.present_before + self.present_after, self.lost or 0) / 2

    def middle_days_before(self, date: dt.date) -> float:
        """Return the days from the middle of the stretch to a later date."""
        return (date - self.end).days + self.days / 2


@dataclass(frozen=True, slots=True)
class History:
    """Stretches in order, each beginning where the one before ends; `source` is what they were told as."""

    stretches: tuple[Stretch, ...] = ()
    present: tuple[tuple[dt.date, int], ...] = ()
    source: str = "leaf_history"

    @property
    def days(self) -> int:
        """Return how many days the history covers."""
        return sum(stretch.days for stretch in self.stretches)

    def is_fresh(self, date: dt.date) -> bool:
        """Return whether the history still speaks for this date."""
        return bool(self.stretches) and (date - self.stretches[-1].end).days <= FRESH_D

    def since(self, days: float, date: dt.date) -> tuple[Stretch, ...]:
        """Return the stretches whose middle lies at most so many days before the date."""
        return tuple(s for s in self.stretches if s.middle_days_before(date) <= days)


def tally(stretches: Iterable[Stretch], what: str) -> tuple[int, int]:
    """Return how many leaves are known to be "new" or "lost", and the days over which that is known."""
    known = [(getattr(s, what), s.days) for s in stretches if getattr(s, what) is not None]
    return sum(count for count, _ in known), sum(days for _, days in known)


def from_leaves(leaves: Iterable[Leaf], until: dt.date) -> History:
    """Return single leaves as a history of days, from the first dated opening or loss to the given date.

    What happened on the first day only starts the clock: counting it would make every rate too high.
    """
    leaves = tuple(leaves)
    opened = [leaf.opened for leaf in leaves if leaf.opened]
    lost = [leaf.lost for leaf in leaves if leaf.lost]
    first = min((*opened, *lost), default=until)
    if first >= until:
        return History(source="leaves")
    present = sum(
        (leaf.opened is None or leaf.opened <= first) and (leaf.lost is None or leaf.lost > first)
        for leaf in leaves
    )
    step = 1 + (until - first).days // _MOST_STRETCHES
    new, gone = _binned(opened, first, step), _binned(lost, first, step)
    stretches = []
    for n in range(-(-(until - first).days // step)):
        start = first + dt.timedelta(days=n * step)
        end = first + dt.timedelta(days=min((n + 1) * step, (until - first).days))
        after = present + new[n] - gone[n]
        stretches.append(Stretch(start, end, new[n], gone[n], present, after))
        present = after
    return History(tuple(stretches), source="leaves")


def _binned(dates: Iterable[dt.date], first: dt.date, step: int) -> Counter[int]:
    """Return how many dates lie in each stretch of so many days after the first day."""
    return Counter(((date - first).days - 1) // step for date in dates if date > first)
