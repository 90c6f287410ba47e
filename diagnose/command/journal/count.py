"""`diagnose count`: leaf counts of a whole shelf in plain lines. Each is on disk before the next plant is asked for."""

import sys
from pathlib import Path

from diagnose.bookkeeping import count_before, day_of_counts
from diagnose.case import LeafCount
from diagnose.command.journal.days import read_day
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, data
from diagnose.command.typed import is_said, is_stop
from diagnose.journal.counts import add_count, last_counts
from diagnose.journal.plants import all_plants
from diagnose.journal.records import PlantRecord
from diagnose.language import _, marked, ngettext
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.questionnaire.counted import read_count
from diagnose.questionnaire.typed import TypedError

_HELP = marked("""Type leaves, new, lost since the last count, such as 5 1 0 (and oldest, middle or newest).
Enter: as last time, none new or lost. s: skip. b: back to the plant before. stop: leave; counts are kept.""")


def count(journal: Path | None, place: str | None, date: str | None) -> int:
    """Ask for the count of plant after plant, of one place or all, and save each at once."""
    with opened(journal) as book:
        if book.problem:
            raise BadInputError([])  # told already, and nothing typed could be kept
        day = day_of_counts(book, today(), read_day(date, "--date") if date else None)
        rows = _plants(all_plants(book), place)
        last = {plant_id: record.count for plant_id, record in last_counts(book).items()}
        plants = ngettext("{count} plant, counts of {day}.", "{count} plants, counts of {day}.", len(rows))
        data(plants.format(count=len(rows), day=day) + "\n" + _(_HELP))
        at, saved = 0, 0
        while at < len(rows):
            plant = rows[at]
            data(f"\n{at + 1}/{len(rows)} {plant.name}{_where(plant, place)}: {_last(last.get(plant.id))}")
            line = sys.stdin.readline()
            if not line or is_stop(line):
                break
            if is_said(line, marked("s|skip")):
                at += 1
                continue
            if is_said(line, marked("b|back")):
                at = max(0, at - 1)
                continue
            held = last.get(plant.id)
            before = held
            if held and held.date >= day and line.strip():  # a recount must fit the count before, not itself
                before = count_before(book, plant.id, day)
            try:
                told = read_count(line, before, day)
            except TypedError as error:
                data(str(error))
                continue
            add_count(book, plant.id, told)
            last[plant.id] = told
            saved, at = saved + 1, at + 1
            data(_saved(plant, told, held))
        end = ngettext("{count} count saved in {file}.", "{count} counts saved in {file}.", saved)
        data("\n" + end.format(count=saved, file=book.path))
    return Exit.DONE


def _plants(rows: tuple[PlantRecord, ...], place: str | None) -> tuple[PlantRecord, ...]:
    chosen = tuple(row for row in rows if place is None or row.place.lower() == place.lower())
    if not chosen:
        known = sorted({row.place for row in rows if row.place})
        expected = _("one of {known}").format(known=", ".join(known)) if known else _("plants in the journal")
        mend = nearest(place or "", known) or _("'diagnose journal add NAME --place PLACE' adds a plant")
        found = shown(place) if place else _("no plants")
        raise BadInputError([Problem(None, None, "--place", found, expected, mend)])
    return chosen


def _saved(plant: PlantRecord, told: LeafCount, held: LeafCount | None) -> str:
    if held and held.date == told.date and held != told:
        said = _("saved {plant}: {leaves}, in place of {before} told before for that day")
        return said.format(plant=plant.name, leaves=_told(told), before=_told(held))
    return _("saved {plant}: {leaves}").format(plant=plant.name, leaves=told.present)


def _told(count: LeafCount) -> str:
    return " ".join(str(number) for number in (count.present, count.new, count.lost) if number is not None)


def _where(plant: PlantRecord, place: str | None) -> str:
    return f" ({plant.place})" if place is None and plant.place else ""


def _last(count: LeafCount | None) -> str:
    if count is None:
        return _("not counted yet")
    said = ngettext("{count} leaf on {day}", "{count} leaves on {day}", count.present)
    return said.format(count=count.present, day=count.date)
