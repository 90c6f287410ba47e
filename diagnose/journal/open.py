"""Open a journal: make it, check it, bring it up to date; what cannot be written is opened for reading only.

Every way in which that can go wrong is one sentence, and none of them changes the file.
"""

import contextlib
import os
import sqlite3
import stat
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Self

from diagnose.journal.faults import damaged, fault, newer, not_a_journal, read_only, told
from diagnose.journal.schema import APPLICATION_ID, VERSION, migrate, version
from diagnose.language import _
from diagnose.problems import BadInputError, Problem, refusal

BUSY_S = 5.0
"""How long to wait for another program that is writing (common practice, no source)."""
CHECKED_BYTES = 4_000_000
"""A file up to this size is checked for damage at each opening; larger ones before a migration, on backup and by
`diagnose journal check` (a check reads the whole file: some 20 ms a megabyte, tests/bench/journal.py)."""
OLDEST_SQLITE = (3, 37, 0)  # STRICT tables: https://www.sqlite.org/stricttables.html


class Journal:
    """An open journal. `problem` says why it can only be read, None if it can be written too."""

    def __init__(self, db: sqlite3.Connection, path: Path, problem: Problem | None = None) -> None:
        self.db = db
        self.path = path
        self.problem = problem

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *raised: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the file; what was written is on disk already."""
        self.db.close()

    @contextlib.contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Give the connection inside one transaction: all of it is on disk at the end, or nothing is.

        Inside another `writing` it joins that one.

        Raises:
            BadInputError: the journal can only be read, is locked by another program, or the disk is full.

        """
        if self.problem:
            raise BadInputError([self.problem])
        if self.db.in_transaction:
            yield self.db
            return
        with self._told():
            self.db.execute("BEGIN IMMEDIATE")
            try:
                yield self.db
                self.db.execute("COMMIT")
            except BaseException:
                if self.db.in_transaction:  # SQLite itself rolls back when the disk is full
                    self.db.execute("ROLLBACK")
                raise

    def rows(self, sql: str, parameters: object = ()) -> list[sqlite3.Row]:
        """Return the rows of a question.

        Raises:
            BadInputError: the file is damaged where the rows are.

        """
        with self._told():
            return self.db.execute(sql, parameters).fetchall()  # type: ignore[arg-type]

    @contextlib.contextmanager
    def _told(self) -> Iterator[None]:
        """Tell SQLite's errors in words, and write no more once damage is found."""
        try:
            with told(self.path):
                yield
        except BadInputError as error:
            self.problem = self.problem or next(
                (one for one in error.problems if one.check == "damage"), None
            )
            raise


def open_journal(path: Path, *, busy_s: float = BUSY_S) -> Journal:
    """Return the journal in a file, a new one if there is none, brought up to date after a copy of it was made.

    Raises:
        BadInputError: the file is no journal or cannot be read.

    """
    if sqlite3.sqlite_version_info < OLDEST_SQLITE:
        raise BadInputError(
            [fault(path, f"SQLite {sqlite3.sqlite_version}", _("3.37 or later"), _("use a newer Python"))]
        )
    _make(path)
    if not path.stat().st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH):
        return _for_reading(path, read_only(path), busy_s)
    with told(path):
        db = _connect(path, busy_s, "rw")
        try:
            _refuse_others(db, path)
            if version(db) > VERSION:
                db.close()
                return _for_reading(path, newer(path), busy_s)
            found = "" if path.stat().st_size > CHECKED_BYTES else damage(db)
            if found:
                db.close()
                return _for_reading(path, damaged(path, found), busy_s)
            _use_log(db, busy_s)
            if 0 < version(db) < VERSION:
                _copy_first(db, path)
            migrate(db)
        except sqlite3.OperationalError as error:
            db.close()
            if "readonly" in str(error):  # the folder or the disk refuses, whatever the file's own mode is
                return _for_reading(path, read_only(path), busy_s)
            raise
        except BaseException:
            db.close()
            raise
    return Journal(db, path)


def damage(db: sqlite3.Connection, *, full: bool = False) -> str:
    """Return what SQLite's check finds wrong with the file, an empty string if it is sound."""
    try:
        found = db.execute("PRAGMA integrity_check(1)" if full else "PRAGMA quick_check(1)").fetchone()[0]
    except sqlite3.OperationalError:
        raise
    except sqlite3.DatabaseError as error:
        return str(error)
    return "" if found == "ok" else " ".join(str(found).replace("*", "").split())


def _make(path: Path) -> None:
    """Make an empty file that only its owner can read; one that is there is left as it is."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        with contextlib.suppress(FileExistsError):
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        if not path.is_file():
            raise BadInputError([not_a_journal(path)])
    except OSError as error:
        mend = _("choose another with --journal FILE")
        raise BadInputError([fault(path, refusal(error), _("a file that can be made"), mend)]) from None


def _connect(path: Path, busy_s: float, mode: str) -> sqlite3.Connection:
    db = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode={mode}", uri=True, isolation_level=None, timeout=busy_s
    )
    db.row_factory = sqlite3.Row
    try:
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("PRAGMA synchronous = FULL")  # on disk at the end of each transaction, power cut or not
    except BaseException:  # a file of another kind
        db.close()
        raise
    return db


def _refuse_others(db: sqlite3.Connection, path: Path) -> None:
    mark = db.execute("PRAGMA application_id").fetchone()[0]
    empty = version(db) == 0 and db.execute("SELECT count(*) FROM sqlite_master").fetchone()[0] == 0
    if mark != APPLICATION_ID and not empty:
        raise BadInputError([not_a_journal(path)])


def _use_log(db: sqlite3.Connection, busy_s: float) -> None:
    """Switch to a write-ahead log, so that one program can read while another writes."""
    until = time.monotonic() + busy_s
    while db.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
        try:  # the switch needs the file for itself and does not wait for it by itself
            db.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or time.monotonic() > until:
                raise
            time.sleep(0.02)


def _for_reading(path: Path, problem: Problem, busy_s: float) -> Journal:
    with told(path):
        db = _connect(path, busy_s, "ro")
        try:
            db.execute("SELECT count(*) FROM sqlite_master").fetchone()
        except sqlite3.OperationalError:  # no log can be made beside it: read the file alone
            db.close()
            db = _connect(path, busy_s, "ro&immutable=1")
        except sqlite3.DatabaseError:
            if problem.check != "damage":
                raise
    return Journal(db, path, problem)


def _copy_first(db: sqlite3.Connection, path: Path) -> None:
    """Keep the file as it was before a migration changes it."""
    from diagnose.journal.backup import copy_to  # noqa: PLC0415 - backup.py opens journals itself

    copy = path.with_name(f"{path.name}.version-{version(db)}")
    if not copy.exists():
        copy_to(db, copy)
