"""Which plants' losses rose beyond chance, with false discoveries kept few over the whole collection."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from diagnose.collection.chance import FALSE_DISCOVERIES, adjusted
from diagnose.collection.overview import Overview
from diagnose.collection.shared import Shared, shared_traits, traits
from diagnose.journal.records import EventRecord
from diagnose.measures.leaves.exact import ALPHA


@dataclass(frozen=True, slots=True)
class Rising:
    """A plant whose losses rose; of all plants named, 5 % are expected to be there by chance."""

    row: Overview
    p_adjusted: float


@dataclass(frozen=True, slots=True)
class Standout:
    """What stands out in the collection today."""

    tested: tuple[int, ...]
    """Ids of the plants whose counts could be tested at all."""
    rising: tuple[Rising, ...]
    """Surest first."""
    raised: frozenset[int]
    """Ids of the plants that lose more than before at 5 % each, uncorrected: too many to name, but what they share is
    tested on them, since being one of them does not depend on any trait if nothing has happened."""
    shared: tuple[Shared, ...]
    share_of_false: float = FALSE_DISCOVERIES

    @property
    def hit(self) -> frozenset[int]:
        """Ids of the plants to act on: those named, and those raised that share a trait beyond chance."""
        return frozenset(one.row.plant.id for one in self.rising).union(
            *(shared.plants for shared in self.shared)
        )


def standout(rows: Iterable[Overview], events: Iterable[EventRecord], today: dt.date) -> Standout:
    """Return the plants whose losses rose beyond chance and what they share."""
    tested = [row for row in rows if row.p_rise is not None]
    corrected = adjusted([row.p_rise for row in tested if row.p_rise is not None])
    rising = sorted(
        (Rising(row, p) for row, p in zip(tested, corrected, strict=True) if p <= FALSE_DISCOVERIES),
        key=lambda one: (one.row.p_rise, one.row.plant.name),
    )
    ids = [row.plant.id for row in tested]
    raised = frozenset(row.plant.id for row in tested if row.p_rise is not None and row.p_rise <= ALPHA)
    having = traits([row.plant for row in tested], events, today)
    return Standout(tuple(ids), tuple(rising), raised, shared_traits(having, raised, ids))
