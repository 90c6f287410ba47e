"""Leaf counts as a small typed table: one count a line."""

import datetime as dt
import re
from collections.abc import Mapping

from pydantic import ValidationError

from diagnose.case import LeafCount
from diagnose.language import _, numeral, pgettext, quoted
from diagnose.questionnaire.dates import read_date
from diagnose.questionnaire.typed import TypedError
from diagnose.questionnaire.words import which_leaves, words

_ROW = (
    r"(?P<date>.+?)[\s,:]+(?P<present>\d+)(?: (?:{present}))?"
    r"(?:[\s,]+(?P<new>\d+)(?: (?:{new}))?)?(?:[\s,]+(?P<lost>\d+)(?: (?:{lost}))?)?(?:[\s,]+(?P<which>{which}))?"
)


def read_leaf_table(text: str, today: dt.date, *, south: bool = False) -> tuple[LeafCount, ...]:
    """Return the counts of lines such as `2026-03-01 5 1 0 oldest` (date, leaves, new, lost, which), earliest first.

    Raises:
        TypedError: a line cannot be read; says which and what was expected.

    """
    rows = [_row(line.strip(), today, south) for line in text.splitlines() if line.strip()]
    return tuple(sorted(rows, key=lambda row: row.date))


def _row(line: str, today: dt.date, south: bool) -> LeafCount:
    match = re.fullmatch(_ROW.format(**_alternatives()), line.casefold())
    date = read_date(match["date"], today, south=south) if match else None
    if match is None or date is None or date > today:
        raise TypedError(
            _(
                "Cannot read {line}: please give a date not after {date}, leaves, new and lost, as in "
                "2026-03-01 5 1 0."
            ).format(line=quoted(line), date=today)
        )
    try:
        return LeafCount.model_validate(
            {
                "date": date,
                "present": match["present"],
                "new": match["new"],
                "lost": match["lost"],
                "lost_which": words().which.get(match["which"] or ""),
            }
        )
    except ValidationError:
        raise TypedError(
            _(
                "Cannot take {line}: a plant has at most 5,000 leaves, 1,000 new and 1,000 lost between counts."
            ).format(line=quoted(line))
        ) from None


def _alternatives() -> dict[str, str]:
    """Return the parts of a row -> the words for them, as a pattern."""
    known = words()
    said: dict[str, list[str]] = {"which": list(known.which)}
    for word, part in known.leaves.items():
        said.setdefault(part, []).append(word)
    return {part: "|".join(map(re.escape, of_part)) for part, of_part in said.items()}


def read_leaf_row(fields: Mapping[str, str], today: dt.date, *, south: bool = False) -> LeafCount:
    """Return the count that five typed fields give: date, present, new, lost and which.

    Raises:
        TypedError: a field cannot be read; says which.

    """
    date = read_date(fields["date"], today, south=south)
    if date is None or date > today:
        raise TypedError(
            _('Please type a date not after {date}, such as "3 weeks ago" or 2026-03-01.').format(date=today)
        )
    numbers = {}
    for name, said, most in (
        ("present", _("leaves"), 5000),
        ("new", pgettext("leaves", "opened"), 1000),
        ("lost", pgettext("leaves", "lost"), 1000),
    ):
        text = fields[name].strip()
        if (text and not text.isdecimal()) or (not text and name == "present") or int(text or 0) > most:
            raise TypedError(
                _("Please type how many ({what}): a whole number from 0 to {most}.").format(
                    what=said, most=numeral(most, ",.0f")
                )
            )
        numbers[name] = int(text) if text else None
    which = which_leaves(fields["which"])
    if fields["which"].strip() and which is None:
        raise TypedError(_("Please type which leaves went: oldest, middle or newest."))
    return LeafCount.model_validate({"date": date, "lost_which": which, **numbers})
