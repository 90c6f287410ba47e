"""Dates, numbers and lists as each language writes them (names and marks: Unicode CLDR, by Babel)."""

import datetime as dt
from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from diagnose.language.catalogue import spoken
from diagnose.language.messages import pgettext

if TYPE_CHECKING:
    from babel.core import Locale


def date_said(date: dt.date) -> str:
    """Return a date as it is said, such as 8 November 2026."""
    pattern = pgettext("a date in words", "{day} {month} {year}")
    return pattern.format(day=date.day, month=_months("wide")[date.month], year=date.year)


def day_said(date: dt.date) -> str:
    """Return a date with its day of the week, such as Sunday 8 November 2026."""
    pattern = pgettext("a date with its weekday", "{weekday} {date}")
    return pattern.format(weekday=_locale(spoken()).days["format"]["wide"][date.weekday()], date=date_said(date))


def date_short(date: dt.date) -> str:
    """Return a date with its month in short, such as 8 Nov 2026."""
    pattern = pgettext("a date, month in short", "{day} {month} {year}")
    return pattern.format(day=date.day, month=month_short(date.month), year=date.year)


def day_in_short(date: dt.date | None) -> str:
    """Return a day of the coming months, such as Sun 8 Nov; nothing for no date."""
    if date is None:
        return ""
    pattern = pgettext("a day of the coming months", "{weekday} {day} {month}")
    weekday = _locale(spoken()).days["format"]["abbreviated"][date.weekday()]
    return pattern.format(weekday=weekday, day=date.day, month=month_short(date.month))


def month_short(month: int) -> str:
    """Return a month (1-12) in short, such as Nov."""
    return _months("abbreviated")[month]


def numeral(value: float, spec: str = "") -> str:
    """Return a number by a format spec, such as `.1f` or `,.0f`, with the language's own marks."""
    return format(value, spec).translate(_marks(spoken()))


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


def _months(width: str) -> "dict[int, str]":
    return _locale(spoken()).months["format"][width]  # type: ignore[no-any-return]


@cache
def _marks(language: str) -> dict[int, str]:
    symbols = _locale(language).number_symbols["latn"]
    return str.maketrans({".": symbols["decimal"], ",": symbols["group"]})


@cache
def _locale(language: str) -> "Locale":
    from babel.core import Locale

    return Locale.parse(language)
