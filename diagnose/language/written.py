"""Dates, numbers, quotes and lists as each language writes them (names and marks: Unicode CLDR)."""

import datetime as dt
from collections.abc import Sequence

from diagnose.language.messages import pgettext

_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_IN_SHORT = 3
"""Letters of a month or day in short, in English; `compiled.py` adds the other languages' names and marks."""
_MARKS = {".": "decimal mark", ",": "thousands mark"}


def date_said(date: dt.date) -> str:
    """Return a date as it is said, such as 8 November 2026."""
    pattern = pgettext("a date in words", "{day} {month} {year}")
    return pattern.format(day=date.day, month=month_said(date.month), year=date.year)


def day_said(date: dt.date) -> str:
    """Return a date with its day of the week, such as Sunday 8 November 2026."""
    pattern = pgettext("a date with its weekday", "{weekday} {date}")
    return pattern.format(weekday=_weekday(date), date=date_said(date))


def date_short(date: dt.date) -> str:
    """Return a date with its month in short, such as 8 Nov 2026."""
    pattern = pgettext("a date, month in short", "{day} {month} {year}")
    return pattern.format(day=date.day, month=month_short(date.month), year=date.year)


def day_in_short(date: dt.date | None) -> str:
    """Return a day of the coming months, such as Sun 8 Nov; nothing for no date."""
    if date is None:
        return ""
    pattern = pgettext("a day of the coming months", "{weekday} {day} {month}")
    weekday = pgettext("day, abbreviated", _DAYS[date.weekday()][:_IN_SHORT])
    return pattern.format(weekday=weekday, day=date.day, month=month_short(date.month))


def month_said(month: int) -> str:
    """Return a month (1-12) as it is said, such as November."""
    return pgettext("month, wide", _MONTHS[month - 1])


def month_short(month: int) -> str:
    """Return a month (1-12) in short, such as Nov."""
    return pgettext("month, abbreviated", _MONTHS[month - 1][:_IN_SHORT])


def numeral(value: float, spec: str = "") -> str:
    """Return a number by a format spec, such as `.1f` or `,.0f`, with the language's own marks."""
    return format(value, spec).translate({ord(mark): pgettext(name, mark) for mark, name in _MARKS.items()})


def quoted(text: str) -> str:
    """Return a text in quotes, such as 'text', on one line; one that holds such quotes gets others."""
    said = repr(text)
    inner = said[1:-1].replace("\\'", "'")
    if said[0] == '"' or "'" in inner:
        return pgettext("a text in quotes that holds quotes", '"{text}"').format(text=inner)
    return pgettext("a text in quotes", "'{text}'").format(text=inner)


def and_listed(things: Sequence[str]) -> str:
    """Return things as one list, such as a, b and c."""
    return _listed(things, pgettext("last two of a list", "{rest} and {last}"))


def or_listed(things: Sequence[str]) -> str:
    """Return things to choose from, such as a, b or c."""
    return _listed(things, pgettext("last two of a list", "{rest} or {last}"))


def _listed(things: Sequence[str], last_two: str) -> str:
    if len(things) < 2:
        return "".join(things)
    return last_two.format(rest=", ".join(things[:-1]), last=things[-1])


def _weekday(date: dt.date) -> str:
    return pgettext("day, wide", _DAYS[date.weekday()])
