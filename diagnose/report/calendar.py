"""A plan as an iCalendar file (RFC 5545): one all-day event for each step that begins and each look again."""

import datetime as dt
import uuid
from collections.abc import Iterator

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, spoken
from diagnose.plan import Plan, Step
from diagnose.report.plan_text import BETTER

_SPACE = uuid.uuid5(uuid.NAMESPACE_URL, "urn:diagnose:plan")


def calendar(diagnosis: Diagnosis, plan: Plan, *, with_place: bool = False) -> bytes:
    """Return the calendar; the same plan gives the same bytes, so that a second import replaces the first."""
    from icalendar import Calendar, Event  # noqa: PLC0415 - only a calendar needs it

    made = Calendar()
    made.add("prodid", f"-//diagnose//plan//{spoken().upper()}")
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    case = diagnosis.case
    known = case.plant.name or case.title or case.plant.kind or "Plant"  # the same in every language
    name = _("Plant") if known == "Plant" else known
    for kind, step, date, text in _entries(plan):
        event = Event()
        event.add(
            "uid",
            f"{uuid.uuid5(_SPACE, '|'.join((str(case.date), case.title, known, step.id, kind)))}@diagnose",
        )
        event.add("dtstamp", dt.datetime.combine(plan.date, dt.time(), dt.UTC))
        event.add("dtstart", date)
        event.add("dtend", date + dt.timedelta(days=1))
        summary = _("{plant}: look again: {step}") if kind == "look" else _("{plant}: {step}")
        event.add("summary", summary.format(plant=name, step=step.text))
        event.add("description", text)
        event.add("transp", "TRANSPARENT")
        if with_place and case.place.label:
            event.add("location", case.place.label)
        made.add_component(event)
    return bytes(made.to_ical())


def _entries(plan: Plan) -> Iterator[tuple[str, Step, dt.date, str]]:
    for step in plan.steps:
        yield "begin", step, step.date, step.how
        if step.look_again is not None:
            yield "look", step, step.look_again, step.expect or _(BETTER)
