"""The cases that the first screen lists: the grower's own, newest first, and the demo cases. Owns no widgets."""

import datetime as dt
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import tomli

from diagnose import locations
from diagnose.examples import example_said
from diagnose.language import _, date_said, ngettext

MOST = 50
"""Own cases listed; older ones are opened by path."""


@dataclass(frozen=True, slots=True)
class Listed:
    """One case file as it is listed."""

    path: Path
    title: str
    detail: str


def own_cases() -> list[Listed]:
    """Return the grower's saved cases, the last changed first; files that cannot be read are listed by name."""
    folder = locations.user_cases()
    paths = (
        [path for path in folder.glob("*.toml") if not path.name.startswith(".")] if folder.is_dir() else []
    )
    newest = sorted(paths, key=lambda path: path.stat().st_mtime_ns, reverse=True)[:MOST]
    return [_listed(path, _own_detail) for path in newest]


def demo_cases() -> list[Listed]:
    """Return the demo cases, each with its story, in the language spoken."""
    say = example_said()
    listed = [_listed(path, lambda data: str(data.get("story", ""))) for path in locations.demo_case_files()]
    return [replace(one, title=say(one.title), detail=say(one.detail)) for one in listed]


def _listed(path: Path, detail: Any) -> Listed:
    try:
        data = tomli.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Listed(path, path.name, _("this file cannot be read as it is; open it to see why"))
    plant = data.get("plant")
    plant = plant if isinstance(plant, dict) else {}
    kind = str(plant.get("profile") or "").replace("_", " ").capitalize()
    title = data.get("title") or plant.get("name") or plant.get("kind") or kind or _("Unnamed plant")
    return Listed(path, str(title), detail(data))


def _own_detail(data: dict[str, Any]) -> str:
    date, answers = data.get("date"), data.get("answers")
    said = date_said(date) if isinstance(date, dt.date) else _("no date")
    count = len(answers) if isinstance(answers, dict) else 0
    if not count:
        return _("{date}, no answers").format(date=said)
    return ngettext("{date}, {count} answer", "{date}, {count} answers", count).format(date=said, count=count)
