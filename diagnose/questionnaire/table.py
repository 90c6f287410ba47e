"""Leaf counts as a small typed table: one count a line."""

import datetime as dt
import re
from collections.abc import Mapping
from typing import get_args

from pydantic import ValidationError

from diagnose.case import LeafCount, LeafPosition
from diagnose.questionnaire.dates import read_date
from diagnose.questionnaire.typed import TypedError

_ROW = re.compile(
    r"(?P<date>.+?)[\s,:]+(?P<present>\d+)(?: leaves)?"
    r"(?:[\s,]+(?P<new>\d+)(?: new)?)?(?:[\s,]+(?P<lost>\d+)(?: lost)?)?(?:[\s,]+(?P<which>oldest|middle|newest))?"
)


def read_leaf_table(text: str, today: dt.date, *, south: bool = False) -> tuple[LeafCount, ...]:
    """Return the counts of lines such as `2026-03-01 5 1 0 oldest` (date, leaves, new, lost, which), earliest first.

    Raises:
        TypedError: a line cannot be read; says which and what was expected.

    """
    rows = [_row(line.strip(), today, south) for line in text.splitlines() if line.strip()]
    return tuple(sorted(rows, key=lambda row: row.date))


def _row(line: str, today: dt.date, south: bool) -> LeafCount:
    match = _ROW.fullmatch(line)
    date = read_date(match["date"], today, south=south) if match else None
    if match is None or date is None or date > today:
        raise TypedError(
            f"Cannot read {line!r}: please give a date not after {today}, leaves, new and lost, as in 2026-03-01 5 1 0."
        )
    try:
        return LeafCount.model_validate(
            {
                "date": date,
                "present": match["present"],
                "new": match["new"],
                "lost": match["lost"],
                "lost_which": match["which"],
            }
        )
    except ValidationError:
        raise TypedError(
            f"Cannot take {line!r}: a plant has at most 5,000 leaves, 1,000 new and 1,000 lost between counts."
        ) from None


def read_leaf_row(fields: Mapping[str, str], today: dt.date, *, south: bool = False) -> LeafCount:
    """Return the count that five typed fields give: date, present, new, lost and which.

    Raises:
        TypedError: a field cannot be read; says which.

    """
    date = read_date(fields["date"], today, south=south)
    if date is None or date > today:
        raise TypedError(f'Please type a date not after {today}, such as "3 weeks ago" or 2026-03-01.')
    numbers = {}
    for name, said, most in (("present", "leaves", 5000), ("new", "opened", 1000), ("lost", "lost", 1000)):
        text = fields[name].strip()
        if (text and not text.isdecimal()) or (not text and name == "present") or int(text or 0) > most:
            raise TypedError(f"Please type how many ({said}): a whole number from 0 to {most:,}.")
        numbers[name] = int(text) if text else None
    which = [one for one in get_args(LeafPosition) if one.startswith(fields["which"].strip().lower())]
    if fields["which"].strip() and len(which) != 1:
        raise TypedError("Please type which leaves went: oldest, middle or newest.")
    return LeafCount.model_validate(
        {"date": date, "lost_which": which[0] if fields["which"].strip() else None, **numbers}
    )
