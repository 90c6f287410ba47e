"""A day as it is told to a command of the journal, such as `2026-03-01` or `3 weeks ago`."""

import datetime as dt
import re

from diagnose.command.journal.opened import today
from diagnose.language import _
from diagnose.problems import BadInputError, Problem, shown
from diagnose.questionnaire.dates import read_date

_IN_DIGITS = re.compile(r"\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}")


def read_day(text: str, option: str) -> dt.date:
    """Return the day a text means.

    Raises:
        BadInputError: it means none, or one that lies ahead.

    """
    day = today()
    found = read_date(text, day)
    if found is not None and found <= day:
        return found
    if found is not None:
        told = _("{text}, which lies ahead").format(text=shown(text))
    elif _IN_DIGITS.fullmatch(text.strip()):
        told = _("{text}, which is no day of the calendar (a day is written year-month-day)").format(
            text=shown(text)
        )
    else:
        told = shown(text)
    expected = _("a date not after {day}, such as 2026-03-01 or '3 weeks ago'").format(day=day)
    raise BadInputError([Problem(None, None, option, told, expected)])
