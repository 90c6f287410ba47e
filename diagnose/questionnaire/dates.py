"""Dates as people type them: "2026-03-04", "3 weeks ago", "last spring", "early May", "yesterday"."""

import datetime as dt
import re

_UNITS = {
    "day": 1,
    "week": 7,
    "fortnight": 14,
    "month": 30.44,
    "year": 365.25,
}  # mean lengths of the calendar
_COUNTS = {
    "a": 1,
    "an": 1,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "couple": 2,
    "few": 3,
}
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SEASON_MIDDLES = {
    "spring": 4,
    "summer": 7,
    "autumn": 10,
    "fall": 10,
    "winter": 1,
}  # middle month in the north
_PARTS = {"early": 5, "mid": 15, "late": 25, "": 15}


def read_date(text: str, today: dt.date, *, south: bool = False) -> dt.date | None:
    """Return the date a text means, None if it means none. Vague words mean the middle of what they name.

    A day, month or season without a year is the latest one that is not after `today`.
    """
    words = re.sub(r"\s+", " ", text.strip().lower().replace(",", " "))
    for reader in (_plain, _ago, _month, _season):
        found = reader(words, today, south)
        if found is not None:
            return found
    return None


def _plain(words: str, today: dt.date, south: bool) -> dt.date | None:
    del south
    if words in ("today", "now"):
        return today
    if words == "yesterday":
        return today - dt.timedelta(days=1)
    for pattern, order in (
        (r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", (0, 1, 2)),
        (r"(\d{1,2})\.(\d{1,2})\.(\d{4})", (2, 1, 0)),  # dots: day first, as wherever dots are used
    ):
        match = re.fullmatch(pattern, words)
        if match:
            year, month, day = (int(match[place + 1]) for place in order)
            return _date(year, month, day)
    return None


def _ago(words: str, today: dt.date, south: bool) -> dt.date | None:
    del south
    if match := re.fullmatch(r"last (day|week|fortnight|month|year)", words):
        return _back(today, 1, match[1])
    match = re.fullmatch(
        r"(?:about |some )?(?:a (?=couple|few))?(\d+(?:\.5)?|[a-z]+)(?: of)? ?(d|w|m|y|[a-z]+?)s?(?: ago)?",
        words,
    )
    if not match:
        return None
    count = _COUNTS.get(match[1]) if match[1].isalpha() else float(match[1])
    unit = {"d": "day", "w": "week", "m": "month", "y": "year"}.get(match[2], match[2])
    return _back(today, count, unit) if count is not None and unit in _UNITS else None


def _back(today: dt.date, count: float, unit: str) -> dt.date | None:
    try:
        return today - dt.timedelta(days=round(count * _UNITS[unit]))
    except OverflowError:
        return None


def _month(words: str, today: dt.date, south: bool) -> dt.date | None:
    del south
    match = re.fullmatch(
        r"(?:last |in )?(early |mid[- ]?|late )?(?:(\d{1,2})\.? )?([a-z]{3,})(?: (\d{1,2}))?(?: (\d{4}))?",
        words,
    )
    if not match or match[3][:3] not in _MONTHS or not _is_month(match[3]):
        return None
    month = _MONTHS.index(match[3][:3]) + 1
    day = int(match[2] or match[4] or _PARTS[(match[1] or "").strip(" -")])
    return _date(int(match[5]), month, day) if match[5] else _latest(month, day, today)


def _is_month(word: str) -> bool:
    full = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ]
    return word in _MONTHS or word in full or word == "sept"


def _season(words: str, today: dt.date, south: bool) -> dt.date | None:
    match = re.fullmatch(
        r"(?:last |in )?(early |mid[- ]?|late )?(spring|summer|autumn|fall|winter)(?: (\d{4}))?", words
    )
    if not match:
        return None
    middle = _SEASON_MIDDLES[match[2]] + (6 if south else 0)
    shift = {"early": -1, "late": 1}.get((match[1] or "").strip(" -"), 0)
    month = (middle + shift - 1) % 12 + 1
    return _date(int(match[3]), month, 15) if match[3] else _latest(month, 15, today)


def _latest(month: int, day: int, today: dt.date) -> dt.date | None:
    this_year = _date(today.year, month, day)
    return this_year if this_year is None or this_year <= today else _date(today.year - 1, month, day)


def _date(year: int, month: int, day: int) -> dt.date | None:
    try:
        return dt.date(year, month, day)
    except ValueError:
        return None
