"""`diagnose count`: leaf counts of a whole shelf in plain lines. Each is on disk before the next plant is asked for."""

import datetime as dt
import sys
from pathlib import Path

from diagnose.bookkeeping import day_of_counts
from diagnose.case import LeafCount
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, data
from diagnose.journal.counts import add_count, last_counts
from diagnose.journal.plants import all_plants
from diagnose.journal.records import PlantRecord
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.questionnaire.counted import read_count
from diagnose.questionnaire.typed import TypedError

_HELP = """Type leaves, new, lost since the last count, such as 5 1 0 (and oldest, middle or newest).
Enter: as last time, none new or lost. s: skip. b: back to the plant before. stop: leave; counts are kept."""


def count(journal: Path | None, place: str | None, date: dt.date | None) -> int:
    """Ask for the count of plant after plant, of one place or all, and save each at once."""
    with opened(journal) as book:
        if book.problem:
            raise BadInputError([])  # told already, and nothing typed could be kept
        day = day_of_counts(book, today(), date)
        rows = _plants(all_plants(book), place)
        last = {plant_id: record.count for plant_id, record in last_counts(book).items()}
        data(f"{len(rows)} plants, counts of {day}.\n{_HELP}")
        at, saved = 0, 0
        while at < len(rows):
            plant = rows[at]
            data(f"\n{at + 1}/{len(rows)} {plant.name}{_where(plant, place)}: {_last(last.get(plant.id))}")
            word = sys.stdin.readline()
            if not word or word.strip().lower() == "stop":
                break
            word = word.strip().lower()
            if word in ("s", "b"):
                at = at + 1 if word == "s" else max(0, at - 1)
                continue
            try:
                told = read_count(word, last.get(plant.id), day)
            except TypedError as error:
                data(str(error))
                continue
            add_count(book, plant.id, told)
            last[plant.id] = told
            saved, at = saved + 1, at + 1
            data(f"saved {plant.name}: {told.present}")
        data(f"\n{saved} {'count' if saved == 1 else 'counts'} saved in {book.path}.")
    return Exit.DONE


def _plants(rows: tuple[PlantRecord, ...], place: str | None) -> tuple[PlantRecord, ...]:
    chosen = tuple(row for row in rows if place is None or row.place.lower() == place.lower())
    if not chosen:
        known = sorted({row.place for row in rows if row.place})
        expected = "one of " + ", ".join(known) if known else "plants in the journal"
        mend = nearest(place or "", known) or "'diagnose journal add NAME --place PLACE' adds a plant"
        raise BadInputError([Problem(None, None, "--place", shown(place or "no plants"), expected, mend)])
    return chosen


def _where(plant: PlantRecord, place: str | None) -> str:
    return f" ({plant.place})" if place is None and plant.place else ""


def _last(count: LeafCount | None) -> str:
    return "not counted yet" if count is None else f"{count.present} leaves on {count.date}"
