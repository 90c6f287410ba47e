"""A case as rows: what changed between two states of it, and the state that rows add up to.

Only what changed is written, so that two programs with the same case open do not undo each other's answers.
Leaf counts and events are not here: they belong to the plant.
"""

import datetime as dt
import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from diagnose.case import Case

Part = Literal["answer", "not_known", "field"]
FIELDS = ("title", "story", "plant", "place", "leaves", "expect")


@dataclass(frozen=True, slots=True)
class Entry:
    """One change: an answer, whether a question's answer is not known, or a field; the value as JSON."""

    part: Part
    name: str
    value: str


def changes(before: Case, after: Case) -> tuple[Entry, ...]:
    """Return what has to be written to come from one state of a case to another."""
    entries = []
    for name in dict.fromkeys((*before.answers, *after.answers)):
        old, new = before.answers.get(name), after.answers.get(name)
        if old != new or type(old) is not type(new):
            entries.append(Entry("answer", name, _to_json(new)))
    entries += [
        Entry("not_known", name, json.dumps(name in after.not_known))
        for name in dict.fromkeys((*before.not_known, *after.not_known))
        if (name in before.not_known) != (name in after.not_known)
    ]
    if before != after:
        old_data, new_data = (case.model_dump(mode="json", include=set(FIELDS)) for case in (before, after))
        entries += [
            Entry("field", name, json.dumps(new_data[name]))
            for name in FIELDS
            if old_data[name] != new_data[name]
        ]
    return tuple(entries)


def restored(entries: Iterable[Entry], **given: Any) -> Case:
    """Return the case that entries, earliest first, add up to; `given` are its other fields."""
    answers: dict[str, Any] = {}
    not_known: dict[str, None] = {}
    fields: dict[str, Any] = {}
    for entry in entries:
        value = _from_json(entry.value)
        if entry.part == "answer":
            answers.pop(entry.name, None)
            if value is not None:
                answers[entry.name] = value
        elif entry.part == "not_known":
            not_known.pop(entry.name, None)
            if value:
                not_known[entry.name] = None
        else:
            fields[entry.name] = value
    return Case.model_validate(given | fields | {"answers": answers, "not_known": tuple(not_known)})


def _to_json(value: Any) -> str:
    if isinstance(value, dt.date):
        return json.dumps({"date": value.isoformat()})
    return json.dumps(value)


def _from_json(text: str) -> Any:
    value = json.loads(text)
    if isinstance(value, dict) and set(value) == {"date"}:
        return dt.date.fromisoformat(value["date"])
    return tuple(value) if isinstance(value, list) else value
