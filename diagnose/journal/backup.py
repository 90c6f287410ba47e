"""A copy of the whole journal while it is in use, made by SQLite itself."""

import os
import sqlite3
from pathlib import Path

from diagnose.journal.faults import damaged, fault, told
from diagnose.journal.open import Journal, damage
from diagnose.language import _
from diagnose.problems import BadInputError, refusal


def backup(journal: Journal, to: Path) -> None:
    """Copy the journal to a file that does not exist yet, whole even if another program is writing.

    Raises:
        BadInputError: the file exists, cannot be written, or the journal is damaged.

    """
    if to.exists():
        raise BadInputError(
            [fault(to, _("a file that exists"), _("a new name"), _("nothing was written over"))]
        )
    found = damage(journal.db)
    if found:
        raise BadInputError([damaged(journal.path, found)])
    with told(to):
        copy_to(journal.db, to)


def copy_to(db: sqlite3.Connection, to: Path) -> None:
    """Copy a database to a path, complete or not at all, readable by its owner only."""
    part = to.with_name(f"{to.name}.part-{os.getpid()}")
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        copy = sqlite3.connect(part, isolation_level=None)
        try:
            db.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")  # one file, without a log beside it
        finally:
            copy.close()
        part.replace(to)
    except OSError as error:
        raise BadInputError([fault(to, refusal(error), _("a file that can be written"))]) from None
    finally:
        part.unlink(missing_ok=True)
