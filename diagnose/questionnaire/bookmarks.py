"""At which question each case was left."""

import json
from pathlib import Path

MOST = 200
"""Cases remembered; the longest unused are forgotten first."""


def read_bookmark(file: Path, case: Path) -> str | None:
    """Return the id of the question a case was left at, None if that is not known."""
    return _read(file).get(str(case.resolve()))


def write_bookmark(file: Path, case: Path, question: str | None) -> None:
    """Remember where a case was left; None forgets it. A folder that cannot be written is no reason to stop."""
    marks = _read(file)
    marks.pop(str(case.resolve()), None)
    if question is not None:
        marks[str(case.resolve())] = question
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(json.dumps(dict(list(marks.items())[-MOST:])), encoding="utf-8")
    except OSError:
        return


def _read(file: Path) -> dict[str, str]:
    try:
        marks = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(key): str(value) for key, value in marks.items()} if isinstance(marks, dict) else {}
