"""At which question each case was left."""

import json
from pathlib import Path

from diagnose.wholefile import write_whole

MOST = 200
"""Cases remembered; the longest unused are forgotten first."""


def read_bookmark(file: Path, case: Path) -> str | None:
    """Return the id of the question a case was left at, None if that is not known."""
    return _read(file).get(str(case.resolve()))


def write_bookmark(file: Path, case: Path, question: str | None) -> None:
    """Remember where a case was left; None forgets it. A folder that cannot be written is no reason to stop."""
    marks, name = _read(file), str(case.resolve())
    if marks.pop(name, None) == question:
        return  # where the case was left among others matters less than a write to disk at every step
    if question is not None:
        marks[name] = question
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        write_whole(file, json.dumps(dict(list(marks.items())[-MOST:])).encode())
    except OSError:
        return


def _read(file: Path) -> dict[str, str]:
    try:
        marks = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(key): str(value) for key, value in marks.items()} if isinstance(marks, dict) else {}
