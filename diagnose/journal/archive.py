"""The whole journal as one archive that people and other programs can read: a zip of CSV tables and a TOML note.

Written and read back, every row told is the same. An empty cell is NULL where the column may be NULL, else empty text.
"""

import csv
import io
import os
import sqlite3
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import tomli
import tomli_w

from diagnose.journal.faults import fault
from diagnose.journal.open import Journal
from diagnose.journal.schema import TOLD, VERSION, version
from diagnose.journal.stretches import rebuild
from diagnose.language import _
from diagnose.problems import BadInputError, refusal

_NOTE = "journal.toml"
_SAME_DAY = (1980, 1, 1, 0, 0, 0)  # zip's first day: the same journal gives the same archive


def write_archive(journal: Journal, to: Path) -> tuple[str, ...]:
    """Write all that can be read of a journal; return the names of the tables that could not be read to their end.

    Raises:
        BadInputError: the file exists or cannot be written.

    """
    if to.exists():
        raise BadInputError(
            [fault(to, _("a file that exists"), _("a new name"), _("nothing was written over"))]
        )
    broken = []
    rows_in: dict[str, int] = {}
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        handle, part = tempfile.mkstemp(dir=to.parent, prefix=".archive-")  # only its owner can read it
        try:
            with os.fdopen(handle, "wb") as file, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
                for table in TOLD:
                    text, rows_in[table], whole = _table_text(journal.db, table)
                    _put(archive, f"{table}.csv", text)
                    broken += [] if whole else [table]
                note = {"format": 1, "tables": version(journal.db), "rows": rows_in, "cut_short": broken}
                _put(archive, _NOTE, tomli_w.dumps(note))
            Path(part).replace(to)
        except BaseException:
            Path(part).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise BadInputError([fault(to, refusal(error), _("a file that can be written"))]) from None
    return tuple(broken)


def read_archive(journal: Journal, archive: Path) -> int:
    """Fill an empty journal from an archive, all or nothing; return the number of rows.

    Raises:
        BadInputError: the journal is not empty, or the archive is not one that this version can read.

    """
    if journal.rows("SELECT 1 FROM plants LIMIT 1") or journal.rows("SELECT 1 FROM places LIMIT 1"):
        mend = _("name a new file with --journal FILE")
        raise BadInputError([fault(journal.path, _("a journal with plants in it"), _("an empty one"), mend)])
    try:
        with zipfile.ZipFile(archive) as file:
            note = tomli.loads(file.read(_NOTE).decode())
            if not isinstance(note.get("tables"), int) or note["tables"] > VERSION:
                raise BadInputError(
                    [
                        fault(
                            archive,
                            _("an archive of a newer version"),
                            _("one of this version"),
                            _("update this program"),
                        )
                    ]
                )
            with journal.writing() as db:
                db.execute("PRAGMA defer_foreign_keys = ON")  # a rescued archive may lack some parents' order
                written = sum(_fill(db, archive, table, file) for table in TOLD)
                _no_orphans(db, archive)
                rebuild(db)
    except (zipfile.BadZipFile, KeyError, UnicodeDecodeError, tomli.TOMLDecodeError, csv.Error):
        found = _("a file that is not an archive of a journal")
        raise BadInputError([fault(archive, found, _("an archive of a journal"))]) from None
    except OSError as error:
        raise BadInputError([fault(archive, refusal(error), _("a file that can be read"))]) from None
    except sqlite3.IntegrityError as error:
        found = _("a row that no journal can hold ({error})").format(error=error)
        raise BadInputError([fault(archive, found, _("the rows as exported"))]) from None
    return written


def _put(archive: zipfile.ZipFile, name: str, text: str) -> None:
    info = zipfile.ZipInfo(name, _SAME_DAY)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.external_attr = 0o600 << 16
    archive.writestr(info, text.encode())


def _table_text(db: sqlite3.Connection, table: str) -> tuple[str, int, bool]:
    """Return a table as CSV, its rows, and whether it could be read to its end."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)  # lines end in CR LF (RFC 4180), so that cells with either are quoted
    columns = _columns(db, table)
    writer.writerow(columns)
    written, whole = 0, True
    for row in _readable(db, table):
        if row is None:
            whole = False
            continue
        writer.writerow("" if value is None else value for value in row)
        written += 1
    return text.getvalue(), written, whole


def _readable(db: sqlite3.Connection, table: str) -> Iterator[tuple[Any, ...] | None]:
    """Yield the rows of a table by id; None once for each damaged part, which is then stepped over."""
    columns = ", ".join(_columns(db, table))
    after, step = 0, 1
    while True:
        try:
            for row in db.execute(f"SELECT {columns} FROM {table} WHERE id > ? ORDER BY id", (after,)):
                yield tuple(row)
                after, step = row[0], 1
        except sqlite3.DatabaseError:
            yield None
            after, step = after + step, step * 2  # a page holds a run of ids
            if after > 2**40:
                return
        else:
            return


def _columns(db: sqlite3.Connection, table: str) -> dict[str, bool]:
    """Return a table's columns, and whether each may be NULL."""
    return {
        row["name"]: not (row["notnull"] or row["pk"]) for row in db.execute(f"PRAGMA table_info({table})")
    }


def _fill(db: sqlite3.Connection, path: Path, table: str, archive: zipfile.ZipFile) -> int:
    reader = csv.reader(io.StringIO(archive.read(f"{table}.csv").decode(), newline=""))
    header = next(reader)
    columns = _columns(db, table)
    if not set(header) <= set(columns):
        found = _("a column of {table} that no journal has").format(table=table)
        raise BadInputError([fault(path, found, _("columns as exported"))])
    rows = [
        [None if cell == "" and columns[name] else cell for name, cell in zip(header, row, strict=True)]
        for row in reader
    ]
    marks = ", ".join("?" * len(header))
    db.executemany(f"INSERT INTO {table} ({', '.join(header)}) VALUES ({marks})", rows)
    return len(rows)


def _no_orphans(db: sqlite3.Connection, path: Path) -> None:
    lost = db.execute("PRAGMA foreign_key_check").fetchone()
    if lost is not None:
        found = _("a row of {table} that belongs to a lost row of {parent}").format(
            table=lost[0], parent=lost[2]
        )
        raise BadInputError([fault(path, found, _("whole tables"))])
