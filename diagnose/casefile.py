"""Case files: a Case read from and written to TOML. A field at fault is left out and told, the rest kept."""

from pathlib import Path
from typing import Any

import tomli_w

from diagnose.case import Case
from diagnose.problems import BadInputError, Problem
from diagnose.tomlfiles.lines import KeyPath
from diagnose.tomlfiles.read import fit, read_toml
from diagnose.wholefile import write_whole


def read_case(path: Path) -> tuple[Case, tuple[Problem, ...]]:
    """Return the case in a file, and the faults of the fields that had to be left out.

    Raises:
        BadInputError: the file is not TOML, or has no usable date; nothing can be said then.

    """
    data, text = read_toml(path)
    try:
        return fit(data, text, Case, str(path)), ()
    except BadInputError as error:
        problems = error.problems
        if any(problem.key in ("", "date", "format") for problem in problems):
            raise
    return fit(_without(data, [problem.path for problem in problems]), text, Case, str(path)), problems


def to_toml(case: Case) -> str:
    """Return a case as TOML that `read_case` reads back equal."""
    data = case.model_dump(exclude_defaults=True, mode="python")
    return tomli_w.dumps({"format": case.format, "date": case.date} | _plain(data), multiline_strings=True)


def write_case(path: Path, case: Case) -> None:
    """Write a case so that a crash or a full disk leaves the old file or the new one, never half of it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, to_toml(case).encode())


def _plain(value: Any) -> Any:
    """TOML has no null: fields without a value are left out."""
    if isinstance(value, dict):
        return {key: _plain(inner) for key, inner in value.items() if inner is not None}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value


def _without(data: dict[str, Any], paths: list[KeyPath]) -> dict[str, Any]:
    """Return the data less each faulty field; a fault inside a list's row takes the whole row."""
    kept = {key: list(value) if isinstance(value, list) else value for key, value in data.items()}
    for first, *rest in paths:
        inner = kept.get(str(first))
        if rest and isinstance(inner, list) and isinstance(rest[0], int):
            inner[rest[0]] = None
        elif rest and isinstance(inner, dict):
            kept[str(first)] = {key: value for key, value in inner.items() if key != rest[0]}
        else:
            kept.pop(str(first), None)
    return {
        key: [row for row in value if row is not None] if isinstance(value, list) else value
        for key, value in kept.items()
    }
