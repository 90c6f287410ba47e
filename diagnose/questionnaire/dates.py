"""Dates as people type them: "2026-03-04", "3 weeks ago", "last spring", "early May"; their words are in `words.py`."""

import datetime as dt
import re
from collections.abc import Sequence

from diagnose.questionnaire.words import Words, words

_DAY_OF_PART = {-1: 5, 0: 15, 1: 25}
"""The day meant by early, mid and late in a month; its middle if nothing is said."""
_LETTER = r"[^\W\d_]"
_UNHEARD = ("", 0.0)
_Parts = dict[str, list[float]]
"""The words of a date by their kind."""


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
    kept = (word for word in spaced.split() if known.dates.get(word.removesuffix("."), _UNHEARD)[0] != "idle")
    return " ".join(kept)


def _sorted_out(text: str, known: Words) -> _Parts | None:
    """Return the words of a text by their kind, whatever their order; None if one is no word of a date."""
    found: _Parts = {}
    for word in (part.removesuffix(".") for part in text.split()):
        pairs = _kinds(word, known)
        if not pairs:
            return None
        for kind, value in pairs:
            found.setdefault(kind, []).append(value)
    return found


def _kinds(word: str, known: Words) -> list[tuple[str, float]]:
    if re.fullmatch(r"\d+(?:[.,]\d+)?", word):
        return [("number", float(word.replace(",", ".")))]
    if word in known.dates:
        return [known.dates[word]]
    for length in range(1, len(word)):  # as in midsummer
        pair = [known.dates.get(part, _UNHEARD) for part in (word[:length], word[length:])]
        if [kind for kind, _value in pair] == ["part", "season"]:
            return [*pair]
    return []


def _meant(parts: _Parts, today: dt.date, *, south: bool) -> dt.date | None:
    named = [kind for kind in ("unit", "month", "season") for _each in parts.get(kind, ())]
    if len(named) != 1 or len(parts.get("part", ())) > 1:
        return None
    if named == ["unit"]:
        return None if "part" in parts else _ago(parts, today)
    if "count" in parts or "one" in parts:
        return None
    return _month(parts, today) if named == ["month"] else _season(parts, today, south=south)


def _ago(parts: _Parts, today: dt.date) -> dt.date | None:
    given = [*parts.get("count", ()), *parts.get("number", ())]
    # beside another count "a" says nothing: "a few weeks", "half a year"
    if len(given) + ("last" in parts) > 1 or not (given or "last" in parts or "one" in parts):
        return None
    try:
        return today - dt.timedelta(days=round((given or [1.0])[0] * parts["unit"][0]))
    except OverflowError:
        return None


def _month(parts: _Parts, today: dt.date) -> dt.date | None:
    numbers, month = parts.get("number", []), int(parts["month"][0])
    years, days = _whole(numbers, 1000, 9999), _whole(numbers, 1, 31)
    if len(years) > 1 or len(days) > 1 or len(years) + len(days) < len(numbers):
        return None
    day = days[0] if days else _DAY_OF_PART[int(parts.get("part", [0])[0])]
    return _date(years[0], month, day) if years else _latest(month, day, today)


def _season(parts: _Parts, today: dt.date, *, south: bool) -> dt.date | None:
    numbers = parts.get("number", [])
    years = _whole(numbers, 1000, 9999)
    if len(years) > 1 or len(years) < len(numbers):
        return None
    middle = int(parts["season"][0] + parts.get("part", [0])[0]) + (6 if south else 0)
    month = (middle - 1) % 12 + 1
    return _date(years[0], month, 15) if years else _latest(month, 15, today)


def _whole(numbers: Sequence[float], least: int, most: int) -> list[int]:
    return [int(number) for number in numbers if least <= number <= most and number.is_integer()]


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
