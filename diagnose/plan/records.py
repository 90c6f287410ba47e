"""What a plan is made of. Frozen records; every date is counted from the case's own."""

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from diagnose.measures.measure import Assumption
from diagnose.plan.light import Light

Kind = Literal["look", "mind", "wait", "change"]


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do, from its date on; `look_again` is the day to judge it by what is expected."""

    id: str
    text: str
    how: str
    kind: Kind
    changes: str
    pace: Literal["in_turn", "at_once", "beside"]
    effort: str
    date: dt.date
    look_again: dt.date | None
    expect: str
    causes: tuple[str, ...]
    """Names of the causes it is for."""
    cautions: tuple[str, ...]
    """Ids of cautions."""
    origin: tuple[str, ...]
    house: bool


@dataclass(frozen=True, slots=True)
class Held:
    """A step that is not given yet, and why."""

    id: str
    text: str
    how: str
    doubts: tuple[tuple[str, float], ...]
    """The causes that would make it wrong, with their probability; empty if it waits since another cause leads."""
    until: str
    """The check that settles it; may be empty."""
    causes: tuple[str, ...]
    house: bool


@dataclass(frozen=True, slots=True)
class Unasked:
    """A step that an answer would give or drop: the questions whose answers are missing."""

    id: str
    text: str
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LookAgain:
    """A day to look again: for each step under way, what should be seen by then (or an empty text)."""

    date: dt.date
    steps: tuple[tuple[str, str, str], ...]
    """(step id, what was done, what should be seen)"""


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution with what it applies to."""

    id: str
    text: str
    applies_to: tuple[str, ...]
    origin: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a schedule: a day, or none where it holds all the time."""

    date: dt.date | None
    text: str


@dataclass(frozen=True, slots=True)
class Schedule:
    """A part of the plan computed for this very case, row by row, with where its numbers come from."""

    id: str
    title: str
    rows: tuple[Row, ...]
    origin: tuple[str, ...]
    note: str = ""
    assumed: tuple[Assumption, ...] = ()


@dataclass(frozen=True, slots=True)
class Addressed:
    """A cause the plan is for, and the check that settles whether it is true."""

    id: str
    name: str
    probability: float
    settles: str


@dataclass(frozen=True, slots=True)
class Plan:
    """What to do now, for the probable causes together."""

    date: dt.date
    causes: tuple[Addressed, ...]
    only_looks: str
    """Why nothing may be changed yet; empty where changes are given."""
    steps: tuple[Step, ...]
    """By date, then safest, cheapest and most telling first."""
    held: tuple[Held, ...]
    unasked: tuple[Unasked, ...]
    looks: tuple[LookAgain, ...]
    cautions: tuple[Caution, ...]
    schedules: tuple[Schedule, ...]
    light: Light | None
    """None if the light at the plant can't be told."""

    def step(self, step_id: str) -> Step | None:
        """Return a given step, if it is in the plan."""
        return next((step for step in self.steps if step.id == step_id), None)
