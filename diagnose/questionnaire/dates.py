"""Dates as people type them: "2026-03-04", "3 weeks ago", "last spring", "early May"; their words are in `words.py`."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from diagnose.questionnaire.words import Words, words

_DAY_OF_PART = {-1: 5, 0: 15, 1: 25}
"""The day meant by early, mid and late in a month; its middle if nothing is said."""
_LETTER = r"[^\W\d_]"


def read_date(text: str, today: dt.date, *, south: bool = False) -> dt.date | None:
    """Return the date a text means, None if it means none. Vague words mean the middle of what they name.

    A day, month or season without a year is the latest one that is not after `today`.
    """
    known = words()
    plain = _told(text, known)
    if plain in known.days_ago:
        return today - dt.timedelta(days=known.days_ago[plain])
    if match := re.fullmatch(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", plain):
        return _date(int(match[1]), int(match[2]), int(match[3]))
    if match := re.fullmatch(r"(\d{1,2})\. ?(\d{1,2})\. ?(\d{4}|\d{2})?", plain):
        return _day_first(match, today)
    parts = _sorted_out(plain, known)
    return None if parts is None else _meant(parts, today, south=south)


def _told(text: str, known: Words) -> str:
    """Return a text in single words and numbers, without those that say nothing."""
    spaced = re.sub(r",(?!\d)", " ", text.casefold())
    spaced = re.sub(rf"(?<={_LETTER})-(?={_LETTER})|(?<=\d)(?={_LETTER})", " ", spaced)
    return " ".join(word for word in spaced.split() if word.removesuffix(".") not in known.idle)


@dataclass(slots=True)
class _Parts:
    """The words of a date by what they are."""

    numbers: list[str] = field(default_factory=list)
    counts: list[float] = field(default_factory=list)
    ones: int = 0
    last: bool = False
    days: list[float] = field(default_factory=list)
    months: list[int] = field(default_factory=list)
    seasons: list[int] = field(default_factory=list)
    parts: list[int] = field(default_factory=list)


def _sorted_out(text: str, known: Words) -> _Parts | None:
    """Return the words of a text by what they are, whatever their order; None if one is no word of a date."""
    found = _Parts()
    for word in (part.removesuffix(".") for part in text.split()):
        if re.fullmatch(r"\d+(?:[.,]\d+)?", word):
            found.numbers.append(word.replace(",", "."))
        elif word in known.counts:
            found.counts.append(known.counts[word])
        elif word in known.days:
            found.days.append(known.days[word])
        elif word in known.months:
            found.months.append(known.months[word])
        elif word in known.seasons:
            found.seasons.append(known.seasons[word])
        elif word in known.parts:
            found.parts.append(known.parts[word])
        elif word in known.one:
            found.ones += 1
        elif word in known.last:
            found.last = True
        else:
            return None
    return found


def _meant(parts: _Parts, today: dt.date, *, south: bool) -> dt.date | None:
    if len([*parts.days, *parts.months, *parts.seasons]) != 1 or len(parts.parts) > 1:
        return None
    if parts.days:
        return None if parts.parts else _ago(parts, today)
    if parts.counts or parts.ones:
        return None
    return _month(parts, today) if parts.months else _season(parts, today, south=south)


def _ago(parts: _Parts, today: dt.date) -> dt.date | None:
    given = [*parts.counts, *(float(number) for number in parts.numbers)]
    # beside another count "a" says nothing: "a few weeks", "half a year"
    if len(given) + parts.last > 1 or not (given or parts.last or parts.ones):
        return None
    try:
        return today - dt.timedelta(days=round((given or [1.0])[0] * parts.days[0]))
    except OverflowError:
        return None


def _month(parts: _Parts, today: dt.date) -> dt.date | None:
    years, days = _years(parts.numbers), [int(n) for n in parts.numbers if re.fullmatch(r"\d{1,2}", n)]
    if len(years) > 1 or len(days) > 1 or len(years) + len(days) < len(parts.numbers):
        return None
    day = days[0] if days else _DAY_OF_PART[(parts.parts or [0])[0]]
    return _date(years[0], parts.months[0], day) if years else _latest(parts.months[0], day, today)


def _season(parts: _Parts, today: dt.date, *, south: bool) -> dt.date | None:
    years = _years(parts.numbers)
    if len(years) > 1 or len(years) < len(parts.numbers):
        return None
    middle = parts.seasons[0] + (6 if south else 0) + (parts.parts or [0])[0]
    month = (middle - 1) % 12 + 1
    return _date(years[0], month, 15) if years else _latest(month, 15, today)


def _years(numbers: Sequence[str]) -> list[int]:
    return [int(number) for number in numbers if re.fullmatch(r"\d{4}", number)]


def _day_first(match: re.Match[str], today: dt.date) -> dt.date | None:
    """Return a date written with dots, its day first, as wherever dots are used; a short year is of this century."""
    day, month = int(match[1]), int(match[2])
    if match[3] is None:
        return _latest(month, day, today)
    return _date(int(match[3]) + (2000 if len(match[3]) == 2 else 0), month, day)


def _latest(month: int, day: int, today: dt.date) -> dt.date | None:
    this_year = _date(today.year, month, day)
    return this_year if this_year is None or this_year <= today else _date(today.year - 1, month, day)


def _date(year: int, month: int, day: int) -> dt.date | None:
    try:
        return dt.date(year, month, day)
    except ValueError:
        return None
