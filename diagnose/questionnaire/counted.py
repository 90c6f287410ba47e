"""One short line about a plant's leaves -> a leaf count: `5 1 0` is 5 leaves, 1 new, none lost since the last count."""

import datetime as dt
import re

from diagnose.case import LeafCount
from diagnose.language import _
from diagnose.questionnaire.typed import TypedError
from diagnose.questionnaire.words import which_leaves

_LINE = re.compile(r"(\d{1,4})(?:[ ,]+(\d{1,4})(?:[ ,]+(\d{1,4})(?:[ ,]+(\S+))?)?)?")


def read_count(line: str, last: LeafCount | None, day: dt.date) -> LeafCount:
    """Return the count of a day that a line means, given the last one; an empty line is "as last time".

    Raises:
        TypedError: it means none, or does not add up with the last count; `!` at its end insists.

    """
    word = line.strip().casefold()
    if not word:
        if last is None:
            raise TypedError(_("There is no last count; type the leaves, such as 5."))
        return last if last.date == day else LeafCount(date=day, present=last.present, new=0, lost=0)
    match = _LINE.fullmatch(word.rstrip("! "))
    which = which_leaves(match[4] or "") if match else None
    if match is None or not _in_bounds(match) or (match[4] and which is None):
        raise TypedError(
            _("Please type up to three numbers, such as 5 1 0: leaves (to 5000), new and lost (to 1000).")
        )
    present, new, lost = (None if n is None else int(n) for n in match.groups()[:3])
    told = LeafCount.model_validate(
        {"date": day, "present": present, "new": new, "lost": lost, "lost_which": which}
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
        text = (
            _("{before} + {new} new makes at most {sum}, not {told}: type again, or {line} ! to keep it.")
            if told.lost is None
            else _(
                "{before} + {new} new - {lost} lost makes {sum}, not {told}: type again, or {line} ! to keep it."
            )
        )
        raise TypedError(
            text.format(
                before=before,
                new=told.new,
                lost=told.lost,
                sum=at_most - (told.lost or 0),
                told=told.present,
                line=word,
            )
        )


def _in_bounds(match: re.Match[str]) -> bool:
    return int(match[1]) <= 5000 and int(match[2] or 0) <= 1000 and int(match[3] or 0) <= 1000
