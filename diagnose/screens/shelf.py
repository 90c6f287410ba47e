"""The cases that the first screen lists: the grower's own, newest first, and the demo cases. Owns no widgets."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import tomli

from diagnose import locations
from diagnose.language import _, date_said, ngettext, spoken, translated_by

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


def example_said() -> Callable[[str], str]:
    """Return what says a text of the demo cases in the language spoken; their translations lie beside them."""
    messages, _broken = translated_by([locations.demo_cases() / "languages" / spoken()])
    return lambda text: messages.gettext(text) if text else text


def _listed(path: Path, detail: Any) -> Listed:
    try:
        data = tomli.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Listed(path, path.name, _("this file cannot be read as it is; open it to see why"))
    plant = data.get("plant")
    name = plant.get("name") or plant.get("kind") or plant.get("profile") if isinstance(plant, dict) else ""
    title = data.get("title") or str(name or _("Unnamed plant")).replace("_", " ")
    return Listed(path, str(title), detail(data))


def _own_detail(data: dict[str, Any]) -> str:
    date, answers = data.get("date"), data.get("answers")
    said = date_said(date) if isinstance(date, dt.date) else _("no date")
    count = len(answers) if isinstance(answers, dict) else 0
    if not count:
        return _("{date}, no answers").format(date=said)
    return ngettext("{date}, {count} answer", "{date}, {count} answers", count).format(date=said, count=count)
