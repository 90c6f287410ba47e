"""A plan as text and as a calendar."""

import datetime as dt
import re

import icalendar
import pytest

from diagnose.case import Case, Place
from diagnose.diagnosis import plan_for
from diagnose.report.calendar import calendar
from diagnose.report.plan_text import LIMITS, plan_text


def test_the_text_fits_and_holds_everything(told):
    diagnosis, plan, _ = told
    text = plan_text(diagnosis, plan)
    assert max(map(len, text.splitlines())) <= 79
    flat = re.sub(r"\s+", " ", text)
    for step in (*plan.steps, *plan.held):
        assert step.text in flat
        assert step.id in flat or step in plan.held
    for caution in plan.cautions:
        assert caution.text in flat
    for schedule in plan.schedules:
        assert all(row.text in flat for row in schedule.rows)
    assert flat.endswith(LIMITS)


def test_the_calendar_reads_back(told):
    diagnosis, plan, _ = told
    written = calendar(diagnosis, plan)
    read = icalendar.Calendar.from_ical(written)
    assert not read.errors
    assert read["version"] == "2.0"
    assert read["prodid"]
    events = read.walk("VEVENT")
    looks = sum(step.look_again is not None for step in plan.steps)
    assert len(events) == len(plan.steps) + looks
    for event in events:
        assert not event.errors
        assert {"UID", "DTSTAMP", "DTSTART", "SUMMARY"} <= set(event)  # RFC 5545, 3.6.1
        assert type(event.decoded("dtstart")) is dt.date  # all day
        assert event.decoded("dtend") - event.decoded("dtstart") == dt.timedelta(days=1)
        assert event.decoded("dtstart") >= plan.date
        assert "LOCATION" not in event
    uids = [str(event["uid"]) for event in events]
    assert len(uids) == len(set(uids))
    assert max(len(line) for line in written.split(b"\r\n")) <= 75  # RFC 5545, 3.1


def test_the_calendar_is_the_same_each_time(told):
    diagnosis, plan, _ = told
    assert calendar(diagnosis, plan) == calendar(diagnosis, plan)


@pytest.mark.parametrize("with_place", [True, False])
def test_the_place_is_in_the_calendar_only_if_asked_for(diagnostician, with_place):
    case = Case(date=dt.date(2026, 3, 1), place=Place(label="attic"), answers={"medium": "soil_mix"})
    diagnosis = diagnostician.diagnose(case)
    assert (b"attic" in calendar(diagnosis, plan_for(diagnosis), with_place=with_place)) is with_place


def test_two_plants_never_share_an_event(diagnostician):
    uids = []
    for title in ("one", "other"):
        diagnosis = diagnostician.diagnose(Case(date=dt.date(2026, 3, 1), title=title))
        read = icalendar.Calendar.from_ical(calendar(diagnosis, plan_for(diagnosis)))
        uids += [str(event["uid"]) for event in read.walk("VEVENT")]
    assert uids
    assert len(uids) == len(set(uids))
