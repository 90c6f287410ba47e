"""Leaf counts. Each is on disk when the function returns; a recount of the same day replaces, and is kept as told."""

import datetime as dt
import sqlite3
from collections.abc import Iterable, Mapping

from diagnose.case import LeafCount
from diagnose.journal.open import Journal
from diagnose.journal.records import CountRecord, LeafTotals
from diagnose.journal.stretches import TOTALS, refresh
from diagnose.measures.leaves.rates import RECENT_D

_COUNT = "SELECT id, plant_id, date, present, new, lost, lost_which FROM leaf_counts WHERE replaced = 0"


def add_count(journal: Journal, plant_id: int, count: LeafCount) -> None:
    """Save one count."""
    add_counts(journal, {plant_id: (count,)})


def add_counts(journal: Journal, counts: Mapping[int, Iterable[LeafCount]]) -> int:
    """Save counts of several plants, all or none; return how many were not yet known in just this form."""
    with journal.writing() as db:
        return sum(keep_counts(db, plant_id, rows) for plant_id, rows in counts.items())


def keep_counts(db: sqlite3.Connection, plant_id: int, counts: Iterable[LeafCount]) -> int:
    """As `add_counts`, inside a transaction that is already open."""
    added: list[str] = []
    for count in counts:
        told = (count.present, count.new, count.lost, count.lost_which)
        date = count.date.isoformat()
        held = db.execute(f"{_COUNT} AND plant_id = ? AND date = ?", (plant_id, date)).fetchone()
        if held and tuple(held)[3:] == told:
            continue
        if held:
            db.execute("UPDATE leaf_counts SET replaced = 1 WHERE id = ?", (held["id"],))
        db.execute(
            "INSERT INTO leaf_counts (plant_id, date, present, new, lost, lost_which) VALUES (?, ?, ?, ?, ?, ?)",
            (plant_id, date, *told),
        )
        added.append(date)
    if added:
        refresh(db, plant_id, min(added))
    return len(added)


def withdraw_counts(db: sqlite3.Connection, plant_id: int, dates: Iterable[dt.date]) -> None:
    """Let counts of these days no longer hold, inside a transaction that is already open; they are kept as told."""
    gone = [date.isoformat() for date in dates]
    for date in gone:
        db.execute(
            "UPDATE leaf_counts SET replaced = 1 WHERE plant_id = ? AND date = ? AND replaced = 0",
            (plant_id, date),
        )
    if gone:
        refresh(db, plant_id, min(gone))


def counts_of(journal: Journal, plant_id: int) -> tuple[LeafCount, ...]:
    """Return a plant's counts that hold, earliest first."""
    return tuple(_count(row) for row in journal.rows(f"{_COUNT} AND plant_id = ? ORDER BY date", (plant_id,)))


def last_counts(journal: Journal) -> dict[int, CountRecord]:
    """Return each plant's latest count by the plant's id: of those that hold, the one with the latest date."""
    rows = journal.rows(
        f"{_COUNT} AND (plant_id, date) IN (SELECT plant_id, max(date) FROM stretches GROUP BY plant_id)"
    )
    return {row["plant_id"]: CountRecord(row["id"], row["plant_id"], _count(row)) for row in rows}


def leaves_by_step(
    journal: Journal, until: dt.date, step_d: int, steps: int
) -> dict[int, tuple[tuple[dt.date, int], ...]]:
    """Return (date, leaves) of the last count in each step of some days up to a day, earliest first, by plant id."""
    since = until - dt.timedelta(days=step_d * steps - 1)
    rows = journal.rows(
        """SELECT p.id, max(s.date), s.present FROM plants p
           JOIN stretches s ON s.plant_id = p.id AND s.date BETWEEN :since AND :until
           WHERE p.gone_on IS NULL
           GROUP BY p.id, (CAST(julianday(:until) AS INTEGER) - s.day) / :step ORDER BY p.id, 2""",
        {"since": since.isoformat(), "until": until.isoformat(), "step": step_d},
    )
    found: dict[int, list[tuple[dt.date, int]]] = {}
    for plant_id, date, present in rows:
        found.setdefault(plant_id, []).append((dt.date.fromisoformat(date), present))
    return {plant_id: tuple(told) for plant_id, told in found.items()}


def latest_date(journal: Journal) -> dt.date | None:
    """Return the latest date of any count, None if there is none."""
    found = journal.rows("SELECT max(date) FROM stretches")[0][0]
    return dt.date.fromisoformat(found) if found else None


def leaf_totals(journal: Journal) -> tuple[LeafTotals, ...]:
    """Return the totals of every plant still there, by id, from running totals that are kept with the counts."""
    rows = journal.rows(TOTALS, {"recent": RECENT_D})
    return tuple(
        LeafTotals(
            row[0],
            row[1],
            dt.date.fromisoformat(row[2]) if row[2] else None,
            dt.date.fromisoformat(row[3]) if row[3] else None,
            *tuple(row)[4:],
        )
        for row in rows
    )


def _count(row: sqlite3.Row) -> LeafCount:
    # checked when it was written, and by the table: to check each of 100,000 rows again would take seconds
    return LeafCount.model_construct(
        date=dt.date.fromisoformat(row["date"]),
        present=row["present"],
        new=row["new"],
        lost=row["lost"],
        lost_which=row["lost_which"],
    )
