"""Cases: every answer is a row, on disk before the next question shows. What they turned out to be ends them."""

import datetime as dt
from typing import Any

from diagnose.case import Case, Event, Place
from diagnose.journal.counts import counts_of, keep_counts, withdraw_counts
from diagnose.journal.entries import Entry, changes, restored
from diagnose.journal.open import Journal
from diagnose.journal.plants import add_plant, clean, events, find_plant, locate_place, places, plant_by_id
from diagnose.journal.records import CaseRecord, Outcome, PlantRecord
from diagnose.problems import BadInputError

_CASE = """SELECT c.id, c.plant_id, c.opened_on,
EXISTS (SELECT 1 FROM outcomes o WHERE o.case_id = c.id) AS settled FROM cases c"""


def begin_case(journal: Journal, plant_id: int, on: dt.date) -> CaseRecord:
    """Begin a case of a plant; if one is open already, go on with it."""
    with journal.writing() as db:
        held = db.execute(
            f"{_CASE} WHERE c.plant_id = ? AND NOT settled ORDER BY c.id DESC", (plant_id,)
        ).fetchone()
        if held is None:
            db.execute("INSERT INTO cases (plant_id, opened_on) VALUES (?, ?)", (plant_id, on.isoformat()))
    return cases_of(journal, plant_id)[-1]


def cases_of(journal: Journal, plant_id: int) -> tuple[CaseRecord, ...]:
    """Return a plant's cases, first begun first."""
    return tuple(
        _case(row) for row in journal.rows(f"{_CASE} WHERE c.plant_id = ? ORDER BY c.id", (plant_id,))
    )


def all_cases(journal: Journal, *, settled: bool | None = None) -> tuple[CaseRecord, ...]:
    """Return every case, or only those that are (not) settled, first begun first."""
    found = (_case(row) for row in journal.rows(f"{_CASE} ORDER BY c.id"))
    return tuple(case for case in found if settled is None or case.settled is settled)


def read_case_record(journal: Journal, record: CaseRecord, on: dt.date | None = None) -> Case:
    """Return a case as of a day (of its beginning if none is named), with the plant's counts and events till then."""
    day = on or record.opened_on
    plant = plant_by_id(journal, record.plant_id)
    entries = (
        Entry(row["part"], row["name"], row["value"])
        for row in journal.rows(
            "SELECT part, name, value FROM case_entries WHERE case_id = ? ORDER BY id", (record.id,)
        )
    )
    return restored(
        entries,
        date=day,
        plant=plant.as_plant(),
        place=place_of(journal, plant),
        leaf_history=tuple(count for count in counts_of(journal, plant.id) if count.date <= day),
        events=tuple(
            Event.model_validate({"date": e.date, "kind": e.kind, "note": e.note})
            for e in events(journal, plant.id)
            if e.date <= day
        ),
    )


def place_of(journal: Journal, plant: PlantRecord) -> Place:
    """Return where a plant stands, with what is known of that place."""
    return next((p.place for p in places(journal) if p.place.label == plant.place), Place())


def save_change(journal: Journal, record: CaseRecord, before: Case, after: Case) -> None:
    """Write what changed in a case, in one transaction; counts and events go to the plant."""
    with journal.writing() as db:
        for entry in changes(before, after):
            db.execute(
                "INSERT INTO case_entries (case_id, part, name, value) VALUES (?, ?, ?, ?)",
                (record.id, entry.part, entry.name, entry.value),
            )
        old, new = ({count.date: count for count in case.leaf_history} for case in (before, after))
        withdraw_counts(db, record.plant_id, [date for date in old if date not in new])
        keep_counts(db, record.plant_id, [count for date, count in new.items() if old.get(date) != count])
        for event in before.events:
            if event not in after.events:
                db.execute(
                    """UPDATE events SET replaced = 1
                       WHERE plant_id = ? AND date = ? AND kind = ? AND note = ? AND replaced = 0""",
                    (record.plant_id, event.date.isoformat(), event.kind, event.note),
                )
        for event in after.events:
            if event not in before.events:
                db.execute(
                    "INSERT INTO events (plant_id, date, kind, note) VALUES (?, ?, ?, ?)",
                    (record.plant_id, event.date.isoformat(), event.kind, event.note),
                )
        if after.plant.profile and after.plant.profile != before.plant.profile:
            db.execute("UPDATE plants SET profile = ? WHERE id = ?", (after.plant.profile, record.plant_id))


def import_case(journal: Journal, case: Case, name: str) -> CaseRecord:
    """Take a case in, all or nothing: to the plant of this name, a new one if there is none."""
    with journal.writing():
        return _taken_in(journal, case, name)


def _taken_in(journal: Journal, case: Case, name: str) -> CaseRecord:
    try:
        plant = find_plant(journal, name)
    except BadInputError:
        kind, profile = case.plant.kind, case.plant.profile
        plant = add_plant(journal, name, place=case.place.label, kind=kind, profile=profile)
        if case.place.label:
            locate_place(journal, case.place)
    record = begin_case(journal, plant.id, case.date)
    save_change(
        journal, record, read_case_record(journal, record, case.date), _with_own_past(journal, record, case)
    )
    return record


def _with_own_past(journal: Journal, record: CaseRecord, case: Case) -> Case:
    """Return the case with the counts and events that the journal holds besides: a file takes nothing away."""
    held = read_case_record(journal, record, case.date)
    told = {count.date for count in case.leaf_history}
    kept = (count for count in held.leaf_history if count.date not in told)
    return case.model_copy(
        update={
            "leaf_history": tuple(sorted((*kept, *case.leaf_history), key=lambda count: count.date)),
            "events": tuple(dict.fromkeys((*held.events, *case.events))),
        }
    )


def settle(journal: Journal, record: CaseRecord, date: dt.date, cause: str, how: str = "") -> None:
    """Say what a case turned out to be and how one knows; said again, the later one holds."""
    with journal.writing() as db:
        db.execute(
            "INSERT INTO outcomes (case_id, date, cause, how) VALUES (?, ?, ?, ?)",
            (record.id, date.isoformat(), clean(cause, "cause"), clean(how, "how")),
        )


def outcomes(journal: Journal) -> dict[int, Outcome]:
    """Return what each settled case turned out to be, by the case's id: of several sayings the last."""
    rows = journal.rows("SELECT id, case_id, date, cause, how FROM outcomes ORDER BY id")
    return {r[1]: Outcome(r[0], r[1], dt.date.fromisoformat(r[2]), r[3], r[4]) for r in rows}


def _case(row: Any) -> CaseRecord:
    return CaseRecord(
        row["id"], row["plant_id"], dt.date.fromisoformat(row["opened_on"]), bool(row["settled"])
    )
