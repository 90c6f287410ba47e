"""Small cases for the tests of leaf measures."""

import datetime as dt

from diagnose.case import Case, Event, LeafCount
from diagnose.measures.leaves import measure
from diagnose.measures.measure import Given
from diagnose.measures.needs import PlantNeeds

START = dt.date(2024, 1, 1)


def on(day):
    return START + dt.timedelta(days=day)


def case_of(new_and_lost, present=5, every=7, which=None, events=(), **rest):
    """Return a case with one count every so many days: pairs of (new, lost) after the first count."""
    rows = [LeafCount(date=START, present=present)]
    for n, (new, lost) in enumerate(new_and_lost, start=1):
        present += new - lost
        rows.append(
            LeafCount(
                date=on(n * every), present=present, new=new, lost=lost, lost_which=which if lost else None
            )
        )
    dated = tuple(Event(date=on(day), kind=kind) for day, kind in events)
    rest.setdefault("date", rows[-1].date)
    return Case(leaf_history=tuple(rows), events=dated, **rest)


def measured(case, answers=None, needs=None):
    return {m.name: m for m in measure(Given(case, answers or {}, needs or PlantNeeds()))}
