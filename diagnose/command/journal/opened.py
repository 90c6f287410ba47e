"""Open the journal for a command, and say what is wrong with it once."""

import datetime as dt
from pathlib import Path

from diagnose import locations
from diagnose.command.output import complain, talk
from diagnose.journal import Journal, open_journal
from diagnose.language import _


def opened(path: Path | None) -> Journal:
    """Return the journal in use; if it can only be read that is told, and only writing will fail."""
    file = path or locations.journal()
    if not file.exists():
        talk(_("A new journal is begun: {file}.").format(file=file))
    journal = open_journal(file)
    if journal.problem:
        complain([journal.problem])
    return journal


def today() -> dt.date:
    """Return the grower's own calendar day."""
    return dt.date.today()  # noqa: DTZ011
