"""The language spoken to the grower: messages by gettext, dates and numbers as each language writes them.

Whoever faces the grower calls `speak` once, before anything is said. English is the language of the source; the
others lie in folders beside this file, one `.po` file a folder of the program.
"""

from diagnose.language.catalogue import SOURCE, languages, preferred, speak, spoken, translated_by
from diagnose.language.compiled import BrokenFile, gaps
from diagnose.language.messages import _, marked, ngettext, pgettext
from diagnose.language.written import (
    and_listed,
    date_said,
    date_short,
    day_in_short,
    day_said,
    month_said,
    month_short,
    numeral,
    or_listed,
    quoted,
)

__all__ = [
    "SOURCE",
    "BrokenFile",
    "_",
    "and_listed",
    "date_said",
    "date_short",
    "day_in_short",
    "day_said",
    "gaps",
    "languages",
    "marked",
    "month_said",
    "month_short",
    "ngettext",
    "numeral",
    "or_listed",
    "pgettext",
    "preferred",
    "quoted",
    "speak",
    "spoken",
    "translated_by",
]
