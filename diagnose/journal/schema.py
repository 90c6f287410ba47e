"""The tables, as an ordered list of named migrations. Each runs in one transaction with the record that it ran.

Append only: add a function and its name to `MIGRATIONS`; never edit one that has been released.

Text is never NULL and never both NULL and empty, so that a CSV cell says all there is to say. Rows that a later one
replaces are kept (`replaced = 1`): nothing that was told is ever overwritten.
"""

import sqlite3
from collections.abc import Callable

APPLICATION_ID = 0x1EAF1055
"""Marks the file as a journal of this tool (SQLite's `application_id`)."""


def plants_and_counts(db: sqlite3.Connection) -> None:
    """Places, plants, photos, leaf counts, events."""
    _run(
        db,
        """CREATE TABLE places (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            label TEXT NOT NULL UNIQUE,
            city TEXT CHECK (city <> ''),
            country TEXT CHECK (length(country) = 2),
            latitude REAL CHECK (latitude BETWEEN -90 AND 90),
            longitude REAL CHECK (longitude BETWEEN -180 AND 180),
            elevation_m REAL
        ) STRICT""",
        """CREATE TABLE plants (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            name TEXT NOT NULL UNIQUE CHECK (name <> ''),
            kind TEXT NOT NULL DEFAULT '',
            profile TEXT CHECK (profile <> ''),
            place_id INTEGER REFERENCES places (id),
            pot_cm REAL CHECK (pot_cm > 0),
            medium TEXT NOT NULL DEFAULT '',
            note TEXT NOT NULL DEFAULT '',
            gone_on TEXT CHECK (date(gone_on) = gone_on)
        ) STRICT""",
        """CREATE TABLE photos (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            plant_id INTEGER NOT NULL REFERENCES plants (id),
            date TEXT NOT NULL CHECK (date(date) = date),
            path TEXT NOT NULL CHECK (path <> ''),
            note TEXT NOT NULL DEFAULT ''
        ) STRICT""",
        """CREATE TABLE leaf_counts (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            plant_id INTEGER NOT NULL REFERENCES plants (id),
            date TEXT NOT NULL CHECK (date(date) = date),
            present INTEGER NOT NULL CHECK (present BETWEEN 0 AND 5000),
            new INTEGER CHECK (new BETWEEN 0 AND 1000),
            lost INTEGER CHECK (lost BETWEEN 0 AND 1000),
            lost_which TEXT CHECK (lost_which IN ('oldest', 'middle', 'newest')),
            replaced INTEGER NOT NULL DEFAULT 0 CHECK (replaced IN (0, 1))
        ) STRICT""",
        "CREATE UNIQUE INDEX count_that_holds ON leaf_counts (plant_id, date) WHERE replaced = 0",
        """CREATE TABLE events (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            plant_id INTEGER NOT NULL REFERENCES plants (id),
            date TEXT NOT NULL CHECK (date(date) = date),
            kind TEXT NOT NULL CHECK (kind <> ''),
            note TEXT NOT NULL DEFAULT '',
            replaced INTEGER NOT NULL DEFAULT 0 CHECK (replaced IN (0, 1))
        ) STRICT""",
        "CREATE INDEX event_of_plant ON events (plant_id, date)",
    )


def cases_and_answers(db: sqlite3.Connection) -> None:
    """Cases; each answer and each other field of a case is a row of its own, the latest one holds."""
    _run(
        db,
        """CREATE TABLE cases (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            plant_id INTEGER NOT NULL REFERENCES plants (id),
            opened_on TEXT NOT NULL CHECK (date(opened_on) = opened_on)
        ) STRICT""",
        "CREATE INDEX case_of_plant ON cases (plant_id)",
        """CREATE TABLE case_entries (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            case_id INTEGER NOT NULL REFERENCES cases (id),
            part TEXT NOT NULL CHECK (part IN ('answer', 'not_known', 'field')),
            name TEXT NOT NULL CHECK (name <> ''),
            value TEXT NOT NULL CHECK (json_valid(value))
        ) STRICT""",
        "CREATE INDEX entry_of_case ON case_entries (case_id)",
    )


def rankings_and_plans(db: sqlite3.Connection) -> None:
    """Rankings with the rule base's hash, plans with their steps, what was seen later, what it turned out to be."""
    _run(
        db,
        """CREATE TABLE rankings (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            case_id INTEGER NOT NULL REFERENCES cases (id),
            date TEXT NOT NULL CHECK (date(date) = date),
            rules_hash TEXT NOT NULL CHECK (rules_hash <> ''),
            case_told TEXT NOT NULL CHECK (json_valid(case_told)),
            causes TEXT NOT NULL CHECK (json_valid(causes))
        ) STRICT""",
        "CREATE INDEX ranking_of_case ON rankings (case_id)",
        """CREATE TABLE plans (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            case_id INTEGER NOT NULL REFERENCES cases (id),
            ranking_id INTEGER NOT NULL REFERENCES rankings (id),
            date TEXT NOT NULL CHECK (date(date) = date)
        ) STRICT""",
        "CREATE INDEX plan_of_case ON plans (case_id)",
        """CREATE TABLE steps (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            plan_id INTEGER NOT NULL REFERENCES plans (id),
            position INTEGER NOT NULL,
            advice TEXT NOT NULL,
            text TEXT NOT NULL,
            due_on TEXT NOT NULL CHECK (date(due_on) = due_on),
            look_again_on TEXT CHECK (date(look_again_on) = look_again_on),
            expect TEXT NOT NULL DEFAULT '',
            done_on TEXT CHECK (date(done_on) = done_on),
            UNIQUE (plan_id, position)
        ) STRICT""",
        """CREATE TABLE follow_ups (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            plan_id INTEGER NOT NULL REFERENCES plans (id),
            date TEXT NOT NULL CHECK (date(date) = date),
            seen TEXT NOT NULL CHECK (seen IN ('yes', 'partly', 'no')),
            note TEXT NOT NULL DEFAULT ''
        ) STRICT""",
        "CREATE INDEX follow_up_of_plan ON follow_ups (plan_id)",
        """CREATE TABLE outcomes (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            case_id INTEGER NOT NULL REFERENCES cases (id),
            date TEXT NOT NULL CHECK (date(date) = date),
            cause TEXT NOT NULL CHECK (cause <> ''),
            how TEXT NOT NULL DEFAULT ''
        ) STRICT""",
        "CREATE INDEX outcome_of_case ON outcomes (case_id)",
    )


def stretches(db: sqlite3.Connection) -> None:
    """Keep running totals from count to count, derived from `leaf_counts` (see stretches.py) and never exported."""
    _run(
        db,
        """CREATE TABLE stretches (
            plant_id INTEGER NOT NULL REFERENCES plants (id),
            date TEXT NOT NULL,
            day INTEGER NOT NULL,
            days INTEGER,
            present INTEGER NOT NULL,
            new INTEGER,
            lost INTEGER,
            total_counts INTEGER NOT NULL,
            total_new INTEGER NOT NULL,
            total_lost INTEGER NOT NULL,
            total_days INTEGER NOT NULL,
            total_leaf_days REAL NOT NULL,
            PRIMARY KEY (plant_id, date)
        ) STRICT, WITHOUT ROWID""",
    )
    from diagnose.journal.stretches import rebuild  # noqa: PLC0415 - stretches.py is not needed to open a journal

    rebuild(db)


def seen_of_a_step(db: sqlite3.Connection) -> None:
    """Note of which step of a plan something was seen; NULL is the plan as a whole, as told before."""
    _run(db, "ALTER TABLE follow_ups ADD COLUMN step_id INTEGER REFERENCES steps (id)")


MIGRATIONS: tuple[Callable[[sqlite3.Connection], None], ...] = (
    plants_and_counts,
    cases_and_answers,
    rankings_and_plans,
    stretches,
    seen_of_a_step,
)
VERSION = len(MIGRATIONS)
"""Of the tables as this program writes them; a file says its own in SQLite's `user_version`."""

TOLD = (
    "places", "plants", "photos", "leaf_counts", "events", "cases", "case_entries", "rankings", "plans", "steps",
    "follow_ups", "outcomes",
)  # fmt: skip
"""Tables that hold what was told, parents first; the others can be derived from them."""


def migrate(db: sqlite3.Connection) -> None:
    """Run every migration that has not run yet, each in one transaction with the record that it ran."""
    while (done := version(db)) < VERSION:
        db.execute("BEGIN IMMEDIATE")
        try:
            if version(db) == done:  # another program may have been faster
                MIGRATIONS[done](db)
                db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
                db.execute(f"PRAGMA user_version = {done + 1}")
        except BaseException:
            db.execute("ROLLBACK")
            raise
        db.execute("COMMIT")


def version(db: sqlite3.Connection) -> int:
    """Return the version of a file's tables; 0 if it is empty."""
    return int(db.execute("PRAGMA user_version").fetchone()[0])


def _run(db: sqlite3.Connection, *statements: str) -> None:
    for statement in statements:
        db.execute(statement)
