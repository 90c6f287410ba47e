"""A model's complaints as faults in plain words: key, found, expected, how to mend it."""

import re
from collections.abc import Iterator, Mapping
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from diagnose.language import _, or_listed, quoted
from diagnose.problems import Problem, key_shown, nearest, one_of, shown
from diagnose.tomlfiles.expected import LIST, NUMBER, TABLE, TEXT, WHOLE, kind, wanted, words_of
from diagnose.tomlfiles.lines import KeyPath, line_of


def faults(
    error: ValidationError,
    model: type[BaseModel],
    data: object,
    file: str | None,
    lines: Mapping[KeyPath, int],
) -> Iterator[Problem]:
    """Yield one Problem for each key the model refused; several complaints of one key become one."""
    by_key: dict[KeyPath, list[ErrorDetails]] = {}
    for detail in error.errors(include_url=False):
        path = _known_part(detail, data)
        if detail["type"] != "too_short" or not any(other[: len(path)] == path for other in by_key):
            by_key.setdefault(path, []).append(detail)  # a list is not told too short for its faulty elements
    for path, details in by_key.items():
        detail = details[0]
        expected, mend = _expected(details, model, path)
        found = _("nothing") if detail["type"] == "missing" else shown(detail["input"])
        if detail["type"] == "extra_forbidden":
            found = _("the unknown key {key}").format(key=shown(path[-1]))
        yield Problem(
            file, line_of(lines, path), _named(path, data), found, expected, mend, check="shape", path=path
        )


def key_text(path: KeyPath) -> str:
    """Return a key path as a person writes it: `question 3, choices 1, label` with counting from one."""
    text = ""
    for part in path:
        text += f" {part + 1}" if isinstance(part, int) else f"{', ' if text else ''}{key_shown(part[:80])}"
    return text


def _named(path: KeyPath, data: object) -> str:
    """Return a key path as a person writes it; a row that has an id goes by it."""
    table, *rest = path or ("",)
    rows = data.get(table) if isinstance(data, Mapping) else None
    if rest and isinstance(rows, list) and isinstance(rest[0], int):
        row = rows[rest[0]]
        if isinstance(row, Mapping) and isinstance(row.get("id"), str) and rest[1:] not in ([], ["id"]):
            return f"{table} {key_shown(row['id'][:80])}, {key_text(tuple(rest[1:]))}"
    return key_text(path)


def _known_part(detail: ErrorDetails, data: object) -> KeyPath:
    """Return the part of an error's location that is in the data (pydantic adds names of its own types)."""
    path: list[str | int] = []
    for part in detail["loc"]:
        if isinstance(data, Mapping) and (part in data or detail["type"] == "missing"):
            data = data.get(part)
        elif isinstance(data, list | tuple) and isinstance(part, int) and part < len(data):
            data = data[part]
        else:
            break
        path.append(part)
    return tuple(path)


def _expected(details: list[ErrorDetails], model: type[BaseModel], path: KeyPath) -> tuple[str, str]:
    if details[0]["type"] == "extra_forbidden":
        known = [field.alias or name for name, field in _model_at(model, path[:-1]).model_fields.items()]
        return one_of(known), nearest(str(path[-1]), known)
    if details[0]["type"] == "missing":
        return quoted(str(path[-1])), _("add it")
    kinds = [kind(detail) for detail in details]
    texts = [wanted(detail) for detail in details if kind(detail) != WHOLE or NUMBER not in kinds]
    return or_listed(list(dict.fromkeys(texts))), _mend(details[0], set(kinds), path)


def _mend(detail: ErrorDetails, kinds: set[str], path: KeyPath) -> str:
    """Return how to mend the slips that are made most."""
    given = detail["input"]
    if detail["type"] == "literal_error":
        return nearest(str(given), words_of(detail))
    if isinstance(given, bool) and TEXT in kinds:
        return _('write "yes" or "no"')
    if isinstance(given, str) and kinds & {NUMBER, WHOLE} and re.fullmatch(r"-?\d+([.,]\d+)?", given):
        return _("take the quotes away: {number}").format(number=given.replace(",", "."))
    if isinstance(given, Mapping) and kinds == {LIST}:
        brackets = _("write [[{table}]] with two brackets") if len(path) == 1 else _("put [ ] around it")
        return brackets.format(table=path[0])
    if isinstance(given, list) and kinds == {TABLE}:
        return _("take the [ ] away")
    return ""


def _model_at(model: type[BaseModel], path: KeyPath) -> type[BaseModel]:
    for part in path:
        if isinstance(part, str):
            fields = {field.alias or name: field for name, field in model.model_fields.items()}
            model = next(_models(fields[part].annotation), model) if part in fields else model
    return model


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models(inner)
