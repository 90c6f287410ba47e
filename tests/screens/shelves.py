"""A small journal for the screens: invented plants with weekly counts up to the day of the tests."""

import datetime as dt

from diagnose import locations
from diagnose.case import Event, LeafCount
from diagnose.journal import cases, counts, open_journal, plants

TODAY = dt.date(2026, 11, 25)
STEADY = ([8] * 40, [0] * 40)
"""Leaves and leaves lost, week by week."""
HOSTILE = ("[", "[/", "[b]bold[/b]", "[@click=app.quit]x", "$accent", "\\[", "{kind}")
SHEDDING = ([20] * 34 + [17, 14, 11, 8, 5, 2], [0] * 34 + [3] * 6)


def add(name, place="east sill", told=STEADY, ago=0, **fields):
    """Add a plant whose last count lies so many days back; `told` None leaves it uncounted. Give its id."""
    with open_journal(locations.journal()) as book:
        plant = plants.add_plant(book, name, place=place, **fields)
        if told:
            last = TODAY - dt.timedelta(days=ago)
            weeks = len(told[0])
            rows = [
                LeafCount(date=last - dt.timedelta(weeks=weeks - 1 - n), present=present, new=0, lost=lost)
                for n, (present, lost) in enumerate(zip(*told, strict=True))
            ]
            counts.add_counts(book, {plant.id: rows})
    return plant.id


def event(plant_id, kind, note, days_ago):
    """Note what happened to a plant."""
    with open_journal(locations.journal()) as book:
        date = TODAY - dt.timedelta(days=days_ago)
        plants.add_event(book, plant_id, Event(date=date, kind=kind, note=note))


def begin_case(plant_id):
    """Begin a case of a plant."""
    with open_journal(locations.journal()) as book:
        return cases.begin_case(book, plant_id, TODAY)


def kept_counts(plant_id):
    """Return (leaves, new, lost) of each count that is on disk."""
    with open_journal(locations.journal()) as book:
        return [(one.present, one.new, one.lost) for one in counts.counts_of(book, plant_id)]


def a_shelf():
    """Fill the journal with a few plants at two places, and give their ids by name."""
    found = {
        name: add(name, told=SHEDDING, medium="bark mix", ago=3)
        for name in ("Amber Kettle", "Bristle Drum", "Copper Mill")
    }
    found |= {f"Plain {n}": add(f"Plain {n}", "north sill", ago=20 if n == 1 else 3) for n in range(1, 10)}
    found["Newcomer"] = add("Newcomer", "north sill", None)
    for name in ("Amber Kettle", "Bristle Drum", "Copper Mill"):
        event(found[name], "fed", "batch K", 60)
    return found
