"""A plan as data for other programs; the shape is `PlanDocument`, versioned and published as a JSON Schema."""

import datetime as dt
from typing import Literal

from diagnose.diagnosis import Diagnosis
from diagnose.plan import Plan
from diagnose.report.documents import Document
from diagnose.report.words import heading


class CauseDocument(Document):
    """A cause that the plan is for, and the check that settles it."""

    id: str
    name: str
    probability: float
    settles: str


class StepDocument(Document):
    """One step with the day it begins and the day to judge it."""

    id: str
    text: str
    how: str
    kind: Literal["look", "mind", "wait", "change"]
    changes: str
    pace: Literal["in_turn", "at_once", "beside"]
    effort: str
    date: dt.date
    look_again: dt.date | None
    expect: str
    causes: tuple[str, ...]
    cautions: tuple[str, ...]
    origin: tuple[str, ...]
    house: bool


class HeldDocument(Document):
    """A step not given yet: the causes (name, probability) that would make it wrong, and what settles it."""

    id: str
    text: str
    how: str
    doubts: tuple[tuple[str, float], ...]
    until: str
    causes: tuple[str, ...]
    house: bool


class UnaskedDocument(Document):
    """A step that hangs on questions not answered."""

    id: str
    text: str
    questions: tuple[str, ...]


class CautionDocument(Document):
    """A caution and what it applies to."""

    id: str
    text: str
    applies_to: tuple[str, ...]
    origin: tuple[str, ...]


class RowDocument(Document):
    """One line of a schedule."""

    date: dt.date | None
    text: str


class ScheduleDocument(Document):
    """A part of the plan computed for this case."""

    id: str
    title: str
    rows: tuple[RowDocument, ...]
    note: str
    origin: tuple[str, ...]


class PlanDocument(Document):
    """The plan of one case."""

    version: Literal[1] = 1
    case: str
    title: str
    rules: str
    """Hash of the rule base."""
    date: dt.date
    only_looks: str
    causes: tuple[CauseDocument, ...]
    steps: tuple[StepDocument, ...]
    held: tuple[HeldDocument, ...]
    unasked: tuple[UnaskedDocument, ...]
    cautions: tuple[CautionDocument, ...]
    schedules: tuple[ScheduleDocument, ...]
    problems: tuple[str, ...]


def plan_document(diagnosis: Diagnosis, plan: Plan, case: str, problems: tuple[str, ...]) -> PlanDocument:
    """Return a plan as a document; `case` is the name it was asked for by."""
    told = {"case": case, "title": heading(diagnosis), "rules": diagnosis.base.hash, "problems": problems}
    of_plan = PlanDocument.model_fields.keys() - told.keys() - {"version"}
    return PlanDocument.model_validate(told | {name: getattr(plan, name) for name in of_plan})
