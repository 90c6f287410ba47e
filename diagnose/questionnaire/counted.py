"""One short line about a plant's leaves -> a leaf count: `5 1 0` is 5 leaves, 1 new, none lost since the last count."""

import datetime as dt
import re
from typing import get_args

from diagnose.case import LeafCount, LeafPosition
from diagnose.questionnaire.typed import TypedError

_LINE = re.compile(r"(\d{1,4})(?:[ ,]+(\d{1,4})(?:[ ,]+(\d{1,4})(?:[ ,]+([a-z]+))?)?)?")


def read_count(line: str, last: LeafCount | None, day: dt.date) -> LeafCount:
    """Return the count of a day that a line means, given the last one; an empty line is "as last time".

    Raises:
        TypedError: it means none, or does not add up with the last count; `!` at its end insists.

    """
    word = line.strip().lower()
    if not word:
        if last is None:
            raise TypedError("There is no last count; type the leaves, such as 5.")
        return last if last.date == day else LeafCount(date=day, present=last.present, new=0, lost=0)
    match = _LINE.fullmatch(word.rstrip("! "))
    which = [p for p in get_args(LeafPosition) if match and match[4] and p.startswith(match[4])]
    if match is None or not _in_bounds(match) or (match[4] and len(which) != 1):
        raise TypedError(
            "Please type up to three numbers, such as 5 1 0: leaves (to 5000), new and lost (to 1000)."
        )
    present, new, lost = (None if n is None else int(n) for n in match.groups()[:3])
    told = LeafCount.model_validate(
        {"date": day, "present": present, "new": new, "lost": lost, "lost_which": which[0] if which else None}
    )
    if last is not None and last.date < day and not word.endswith("!"):
        _must_fit(told, last.present, word)
    return told


def _must_fit(told: LeafCount, before: int, word: str) -> None:
    if told.new is None:
        return
    at_most = before + told.new
    fits = told.present <= at_most if told.lost is None else told.present == at_most - told.lost
    if not fits:
        gone = f" - {told.lost} lost" if told.lost is not None else ""
        least = "" if told.lost is not None else "at most "
        makes = f"{before} + {told.new} new{gone} makes {least}{at_most - (told.lost or 0)}"
        raise TypedError(f"{makes}, not {told.present}: type again, or {word} ! to keep it.")


def _in_bounds(match: re.Match[str]) -> bool:
    return int(match[1]) <= 5000 and int(match[2] or 0) <= 1000 and int(match[3] or 0) <= 1000
