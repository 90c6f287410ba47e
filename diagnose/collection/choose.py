"""Sort, filter and search the collection, as typed on a command line or in a screen."""

import math
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from diagnose.collection.overview import Overview
from diagnose.language import _
from diagnose.problems import BadInputError, Problem, nearest, shown

_FIELDS: dict[str, Callable[[Overview], Any]] = {
    "name": lambda row: row.plant.name,
    "kind": lambda row: row.plant.kind,
    "profile": lambda row: row.plant.profile or "",
    "place": lambda row: row.plant.place,
    "medium": lambda row: row.plant.medium,
    "pot": lambda row: row.plant.pot_cm,
    "leaves": lambda row: row.leaves,
    "change": lambda row: row.change,
    "losses": lambda row: row.losses,
    "ratio": lambda row: row.ratio,
    "p": lambda row: row.p,
    "counted": lambda row: row.days_since_count,
    "due": lambda row: ", ".join(row.due),
    "case": lambda row: "open" if row.case_open else "none",
}
FIELDS = tuple(_FIELDS)
"""What can be sorted and filtered by; `counted` is days since the last count."""
_LARGEST_FIRST = ("ratio", "counted", "due", "case")


def sort(rows: Iterable[Overview], by: str) -> tuple[Overview, ...]:
    """Return rows by one field, those without a value last; `-field` turns the order round.

    Raises:
        BadInputError: there is no such field.

    """
    name = _field(by.removeprefix("-"), "--sort")
    turned = by.startswith("-") != (name in _LARGEST_FIRST)
    rows = tuple(rows)
    known = [row for row in rows if _FIELDS[name](row) is not None]
    unknown = [row for row in rows if _FIELDS[name](row) is None]
    return tuple(sorted(known, key=lambda row: _sortable(_FIELDS[name](row)), reverse=turned) + unknown)


def where(rows: Iterable[Overview], conditions: Sequence[str]) -> tuple[Overview, ...]:
    """Return the rows that meet all conditions such as `place=east window`, `losses=rising`, `counted>20`.

    Text is compared without regard to case and may be a part of the field with `~` instead of `=`.

    Raises:
        BadInputError: a condition cannot be read.

    """
    tests = [_condition(text) for text in conditions]
    return tuple(row for row in rows if all(test(row) for test in tests))


def find(rows: Iterable[Overview], text: str) -> tuple[Overview, ...]:
    """Return the rows in whose name, kind, place, medium or note every word of a text occurs."""
    words = text.lower().split()

    def told(row: Overview) -> str:
        plant = row.plant
        return " ".join(
            (plant.name, plant.kind, plant.profile or "", plant.place, plant.medium, plant.note)
        ).lower()

    return tuple(row for row in rows if all(word in told(row) for word in words))


def _condition(text: str) -> Callable[[Overview], bool]:
    for sign in (">=", "<=", "!=", "=", "~", ">", "<"):
        name, found, value = text.partition(sign)
        if found:
            return _test(_FIELDS[_field(name.strip(), "--where")], sign, value.strip(), text)
    expected = _("a condition such as losses=rising or counted>20")
    raise BadInputError([Problem(None, None, "--where", shown(text), expected)])


def _test(field: Callable[[Overview], Any], sign: str, value: str, text: str) -> Callable[[Overview], bool]:
    word = value.lower()
    if sign == "~":
        return lambda row: word in str(field(row) or "").lower()
    if sign in ("=", "!="):
        return lambda row: (_plain(field(row)) == word) == (sign == "=")
    try:
        limit = float(value)
    except ValueError:
        expected = _("a number after {sign}").format(sign=sign)
        raise BadInputError([Problem(None, None, "--where", shown(text), expected)]) from None

    def compared(row: Overview) -> bool:
        found = field(row)
        if not isinstance(found, int | float):
            return False
        return {"<": found < limit, ">": found > limit, "<=": found <= limit, ">=": found >= limit}[sign]

    return compared


def _plain(value: Any) -> str:
    if isinstance(value, float) and math.isfinite(value):
        return f"{value:g}"
    return "" if value is None else str(value).lower()


def _field(name: str, option: str) -> str:
    if name not in _FIELDS:
        expected = _("one of {known}").format(known=", ".join(_FIELDS))
        raise BadInputError([Problem(None, None, option, shown(name), expected, nearest(name, _FIELDS))])
    return name


def _sortable(value: Any) -> Any:
    return value.lower() if isinstance(value, str) else value
