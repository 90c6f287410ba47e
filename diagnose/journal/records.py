"""What the journal returns: frozen records, one for each kind of row. Nothing here is computed.

`id` numbers only ever rise within their table and decide which of two entries is the later one; the computer's clock
never does.
"""

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from diagnose.case import Case, LeafCount, Place, Plant

Seen = Literal["yes", "partly", "no"]


@dataclass(frozen=True, slots=True)
class PlantRecord:
    """A plant of the collection; `place` is the label of where it stands, pot width in cm."""

    id: int
    name: str
    kind: str = ""
    profile: str | None = None
    place: str = ""
    pot_cm: float | None = None
    medium: str = ""
    note: str = ""
    gone_on: dt.date | None = None
    """The day it left the collection."""

    def as_plant(self) -> Plant:
        """Return the plant as cases know it."""
        return Plant(name=self.name, kind=self.kind, profile=self.profile)


@dataclass(frozen=True, slots=True)
class PhotoRecord:
    """A photo, by its path; the picture itself stays where it is."""

    id: int
    plant_id: int
    date: dt.date
    path: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class CountRecord:
    """One leaf count that holds (a recount of the same day replaces it)."""

    id: int
    plant_id: int
    count: LeafCount


@dataclass(frozen=True, slots=True)
class EventRecord:
    """Something dated that happened to a plant; `kind` is one of `EVENT_KINDS`, the note says what exactly."""

    id: int
    plant_id: int
    date: dt.date
    kind: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class LeafTotals:
    """Totals of a plant's counts, ready for a test of its recent losses against its own past.

    Recent is the last 90 days of counts, or the later half if there are fewer than 180 (as in
    `diagnose.measures.leaves.rates`). `leaf_days` are days times leaves that stood. Everything but `plant_id` is
    zero or None where nothing was counted.
    """

    plant_id: int
    counts: int = 0
    first_on: dt.date | None = None
    last_on: dt.date | None = None
    present: int | None = None
    present_before: int | None = None
    """Leaves at the start of the recent part."""
    lost_recent: int = 0
    new_recent: int = 0
    days_recent: int = 0
    leaf_days_recent: float = 0.0
    lost_earlier: int = 0
    new_earlier: int = 0
    days_earlier: int = 0
    leaf_days_earlier: float = 0.0


@dataclass(frozen=True, slots=True)
class CaseRecord:
    """A case of a plant; settled once it has an outcome."""

    id: int
    plant_id: int
    opened_on: dt.date
    settled: bool


@dataclass(frozen=True, slots=True)
class RankedLine:
    """One line of a stored ledger: `rule` is the id of an evidence rule, of the cause (prior) or of a group."""

    kind: str
    rule: str
    decibans: float


@dataclass(frozen=True, slots=True)
class StoredCause:
    """One cause of a stored ranking."""

    id: str
    score_db: float
    probability: float
    lines: tuple[RankedLine, ...] = ()


@dataclass(frozen=True, slots=True)
class RankingRecord:
    """A ranking as it stood: the rule base's hash, the case it was made of, and every cause in order."""

    id: int
    case_id: int
    date: dt.date
    rules_hash: str
    case: Case
    causes: tuple[StoredCause, ...]


@dataclass(frozen=True, slots=True)
class StepRecord:
    """One step of a plan: what to do, from when on, when to look again, what should be seen then, when it was done."""

    id: int
    plan_id: int
    position: int
    advice: str
    text: str
    due_on: dt.date
    look_again_on: dt.date | None = None
    expect: str = ""
    done_on: dt.date | None = None

    @property
    def look_on(self) -> dt.date | None:
        """The day to judge it: as planned, and as much later as it was done later."""
        late = max(self.done_on - self.due_on, dt.timedelta()) if self.done_on else dt.timedelta()
        return self.look_again_on + late if self.look_again_on else None


@dataclass(frozen=True, slots=True)
class FollowUp:
    """What the grower found when looking again: was it as it should have been, and what exactly."""

    id: int
    plan_id: int
    date: dt.date
    seen: Seen
    note: str = ""
    step_id: int | None = None
    """The step it was seen of; None for the plan as a whole."""


@dataclass(frozen=True, slots=True)
class PlanRecord:
    """A plan made from a ranking, its steps in order, and what was seen when looking again."""

    id: int
    case_id: int
    ranking_id: int
    date: dt.date
    steps: tuple[StepRecord, ...] = ()
    follow_ups: tuple[FollowUp, ...] = ()

    @property
    def looks(self) -> tuple[dt.date, ...]:
        """The days to look again, earliest first."""
        return tuple(sorted({look for step in self.steps if (look := step.look_on)}))


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a case turned out to be, and how one knows."""

    id: int
    case_id: int
    date: dt.date
    cause: str
    how: str = ""


@dataclass(frozen=True, slots=True)
class PlaceRecord:
    """A place of the collection, by its label."""

    id: int
    place: Place
