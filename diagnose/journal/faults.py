"""What can go wrong with the file, each in one sentence that says that nothing was lost and what to do."""

import contextlib
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from diagnose.language import _
from diagnose.problems import BadInputError, Problem


def fault(path: Path, found: str, expected: str, mend: str = "", check: str = "journal") -> Problem:
    """Return a fault of the journal's file."""
    return Problem(str(path), None, "", found, expected, mend, check)


def not_a_journal(path: Path) -> Problem:
    """Return the fault of a file that some other program made."""
    mend = _("it was left as it is; name another with --journal FILE")
    return fault(path, _("a file that is not a journal"), _("a journal of this tool or no file"), mend)


def newer(path: Path) -> Problem:
    """Return the fault of a journal that a later version of this tool has changed."""
    mend = _("it can be read but not changed until this program is updated")
    found = _("a journal of a newer version of this program")
    return fault(path, found, _("one of this version"), mend, "newer")


def read_only(path: Path) -> Problem:
    """Return the fault of a file that may not be written."""
    mend = _("it can be read; to record something, change the permissions of the file and its folder")
    return fault(
        path, _("a journal that may not be written"), _("one that may be written"), mend, "read_only"
    )


def damaged(path: Path, found: str) -> Problem:
    """Return the fault of a file whose pages are broken."""
    mend = _(
        "it can be read but not changed; 'diagnose journal export FILE.zip' saves all that can be read, "
        "'diagnose journal restore FILE.zip --journal NEW' makes a new journal of it; a backup may hold more"
    )
    return fault(path, _("damage ({what})").format(what=found), _("a sound file"), mend, "damage")


@contextlib.contextmanager
def told(path: Path) -> Iterator[None]:
    """Turn an error of SQLite that the user can do something about into one sentence.

    Raises:
        BadInputError: instead of the error; errors that only a fault of this program can cause pass through.

    """
    try:
        yield
    except sqlite3.DatabaseError as error:
        problem = _problem(path, error)
        if problem is None:
            raise
        raise BadInputError([problem]) from None


def _problem(path: Path, error: sqlite3.DatabaseError) -> Problem | None:
    code = (getattr(error, "sqlite_errorcode", None) or 0) & 0xFF  # the primary code, without its details
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        mend = _("try again in a moment; this entry was not saved, all that was saved before is safe")
        found = _("a journal that another program is writing to")
        return fault(path, found, _("one that is free"), mend, "locked")
    if code in (sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR):
        mend = _("make room; this entry was not saved, all that was saved before is safe")
        found = _("a full disk")
        if code != sqlite3.SQLITE_FULL:
            found = _("a disk that refuses ({error})").format(error=error)
        return fault(path, found, _("room to write"), mend, "full")
    if code == sqlite3.SQLITE_CANTOPEN:
        mend = _("check the permissions of its folder")
        return fault(path, _("a file that cannot be opened"), _("one that can be opened"), mend)
    if code == sqlite3.SQLITE_CORRUPT:
        return damaged(path, str(error))
    return {sqlite3.SQLITE_READONLY: read_only, sqlite3.SQLITE_NOTADB: not_a_journal}.get(code, _none)(path)


def _none(path: Path) -> None:
    del path
