"""`diagnose count`: leaf counts of a whole shelf in plain lines. Each is on disk before the next plant is asked for."""

import datetime as dt
import re
import sys
from pathlib import Path
from typing import get_args

from diagnose.case import LeafCount, LeafPosition
from diagnose.command.journal.opened import day_of_counts, opened
from diagnose.command.output import Exit, data
from diagnose.journal.counts import add_count, last_counts
from diagnose.journal.plants import all_plants
from diagnose.journal.records import PlantRecord
from diagnose.problems import BadInputError, Problem, nearest, shown

_HELP = """Type leaves, new, lost since the last count, such as 5 1 0 (and oldest, middle or newest).
Enter: as last time, none new or lost. s: skip. b: back to the plant before. stop: leave; counts are kept."""
_LINE = re.compile(r"(\d{1,4})(?:[ ,]+(\d{1,4})(?:[ ,]+(\d{1,4})(?:[ ,]+([a-z]+))?)?)?")


def count(journal: Path | None, place: str | None, date: dt.date | None) -> int:
    """Ask for the count of plant after plant, of one place or all, and save each at once."""
    with opened(journal) as book:
        if book.problem:
            raise BadInputError([])  # told already, and nothing typed could be kept
        day = day_of_counts(book, date)
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
            told = _read(word, last.get(plant.id), day)
            if told is None:
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


def _read(word: str, last: LeafCount | None, day: dt.date) -> LeafCount | None:
    """Return the count a line means; None, after one sentence, if it means none or does not add up."""
    if not word:
        if last is None:
            data("There is no last count; type the leaves, such as 5.")
            return None
        return last if last.date == day else LeafCount(date=day, present=last.present, new=0, lost=0)
    sure = word.endswith("!")
    match = _LINE.fullmatch(word.rstrip("! "))
    which = [p for p in get_args(LeafPosition) if match and match[4] and p.startswith(match[4])]
    if match is None or not _in_bounds(match) or (match[4] and len(which) != 1):
        data("Please type up to three numbers, such as 5 1 0: leaves (to 5000), new and lost (to 1000).")
        return None
    present, new, lost = (None if n is None else int(n) for n in match.groups()[:3])
    told = LeafCount.model_validate(
        {"date": day, "present": present, "new": new, "lost": lost, "lost_which": which[0] if which else None}
    )
    if last is not None and last.date < day and new is not None and not sure:
        at_most = last.present + new
        fits = at_most - lost == told.present if lost is not None else told.present <= at_most
        if not fits:
            gone = f" - {lost} lost" if lost is not None else ""
            least = "" if lost is not None else "at most "
            makes = f"{last.present} + {new} new{gone} makes {least}{at_most - (lost or 0)}"
            data(f"{makes}, not {told.present}: type again, or {word} ! to keep it.")
            return None
    return told


def _in_bounds(match: re.Match[str]) -> bool:
    return int(match[1]) <= 5000 and int(match[2] or 0) <= 1000 and int(match[3] or 0) <= 1000
