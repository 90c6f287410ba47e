"""Files that the grower keeps: written whole or not at all, and never over another by accident."""

import os
from pathlib import Path

from diagnose.language import _
from diagnose.problems import BadInputError, Problem, refusal
from diagnose.wholefile import write_whole


def write_new(path: Path, content: bytes, *, force: bool) -> None:
    """Write a file so that a crash leaves either what was there or all of the new one.

    Raises:
        BadInputError: the file is there already and `force` is not given, or it cannot be written.

    """
    refuse_existing(path, force=force)
    try:
        write_whole(path, content)
        path.chmod(0o666 & ~_umask())
    except OSError as error:
        expected = _("a name in a folder that can be written to")
        raise BadInputError([_fault(path, refusal(error), expected, "")]) from error


def refuse_existing(path: Path, *, force: bool) -> None:
    """Raise BadInputError if a file would be overwritten without being asked to."""
    if path.exists() and not force:
        raise BadInputError(
            [_fault(path, _("a file that is there already"), _("a new name"), _("--force overwrites it"))]
        )


def _umask() -> int:
    """Return the mask of new files: one written whole is private, what the grower shows around need not be."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _fault(path: Path, found: str, expected: str, mend: str) -> Problem:
    return Problem(str(path), None, "", found, expected, mend)
