"""The words that growers type, as data: those of English always count, and beside them those of the language spoken.

A translation lists the words of its own language, separated by bars, with all the forms that people use.
"""

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeVar

from diagnose.language import _, marked, spoken

DateKind = Literal["idle", "last", "one", "count", "unit", "month", "season", "part"]
_Meaning = TypeVar("_Meaning")

_NOT_KNOWN = marked("?|unknown|not known|don't know|dont know|do not know|no idea")
_YES, _NO = marked("yes|y"), marked("no|n")
_NONE = marked("0|none|none of them|none of these")
_TODAY, _YESTERDAY = marked("today|now"), marked("yesterday")
_BEFORE_YESTERDAY = marked("day before yesterday")
_LAST = marked("last|past")
_IDLE = marked("in|on|of|the|about|some|around|ago|since|st|nd|rd|th")
_A = marked("a|an|one")
_COUNTS = {
    0.5: marked("half"),
    1.5: marked("1½"),
    2: marked("two|couple"),
    3: marked("three|few"),
    4: marked("four"),
    5: marked("five"),
    6: marked("six"),
    7: marked("seven"),
    8: marked("eight"),
    9: marked("nine"),
    10: marked("ten"),
    12: marked("twelve"),
    14: marked("fourteen"),
}
_UNITS = {
    # days, by the calendar's mean lengths
    1: marked("d|day|days"),
    7: marked("w|week|weeks"),
    14: marked("fortnight|fortnights"),
    30.44: marked("m|month|months"),
    365.25: marked("y|year|years"),
}
_MONTHS = (
    marked("january|jan"),
    marked("february|feb"),
    marked("march|mar"),
    marked("april|apr"),
    marked("may"),
    marked("june|jun"),
    marked("july|jul"),
    marked("august|aug"),
    marked("september|sep|sept"),
    marked("october|oct"),
    marked("november|nov"),
    marked("december|dec"),
)
_SEASONS = {
    # middle month in the north
    4: marked("spring|springtime"),
    7: marked("summer|summertime"),
    10: marked("autumn|fall"),
    1: marked("winter|wintertime"),
}
_PARTS = {-1: marked("early|beginning"), 0: marked("mid|middle"), 1: marked("late|end")}
_LEAVES = {
    "present": marked("leaf|leaves"),
    "new": marked("new|opened"),
    "lost": marked("lost|gone"),
}
_WHICH = {
    "oldest": marked("oldest|old"),
    "middle": marked("middle|in between"),
    "newest": marked("newest|young|youngest"),
}
_MEASURED = {
    "mm": marked("mm|millimetre|millimetres"),
    "cm": marked("cm|centimetre|centimetres"),
    "m": marked("m|metre|metres"),
    "in": marked('"|in|inch|inches'),
    "ft": marked("ft|foot|feet"),
    "°C": marked("c|°c|celsius"),
    "°F": marked("f|°f|fahrenheit"),
    "%": marked("%|percent"),
    "d": marked("d|day|days"),
}


@dataclass(frozen=True, slots=True)
class Words:
    """Every word with what it means."""

    not_known: frozenset[str]
    yes_no: dict[str, str]
    none: frozenset[str]
    days_ago: dict[str, int]
    """today and the days before it"""
    dates: dict[str, tuple[DateKind, float]]
    """A word of a date -> its kind, and: a count; a unit's days; a month; a season's middle month in the north; early
    (-1), middle (0) or late (1) in a month or season. Idle words say nothing of their own."""
    leaves: dict[str, str]
    """A column of a leaf count: present, new or lost."""
    which: dict[str, str]
    """Which leaves went: oldest, middle or newest."""
    units: dict[str, str]
    """A unit as it is typed -> as questions have it."""


def words() -> Words:
    """Return the words of English and of the language spoken."""
    return _words(spoken())


def is_not_known(text: str) -> bool:
    """Return whether a typed text says that the answer is not known."""
    return _plain(text) in words().not_known


def which_leaves(text: str) -> str | None:
    """Return which leaves a text means (oldest, middle or newest), which may be the beginning of a word."""
    begun = {which for word, which in words().which.items() if _plain(text) and word.startswith(_plain(text))}
    return begun.pop() if len(begun) == 1 else None


@functools.cache
def _words(language: str) -> Words:
    del language  # it is the one spoken: the key under which its words are kept
    return Words(
        not_known=_both(_NOT_KNOWN),
        yes_no=_meanings({"yes": _YES, "no": _NO}),
        none=_both(_NONE),
        days_ago=_meanings({0: _TODAY, 1: _YESTERDAY, 2: _BEFORE_YESTERDAY}),
        dates=_meanings(
            {
                ("idle", 0): _IDLE,
                ("last", 1): _LAST,
                ("one", 1): _A,
                **{("count", count): listed for count, listed in _COUNTS.items()},
                **{("unit", days): listed for days, listed in _UNITS.items()},
                **{("month", month): listed for month, listed in enumerate(_MONTHS, start=1)},
                **{("season", middle): listed for middle, listed in _SEASONS.items()},
                **{("part", part): listed for part, listed in _PARTS.items()},
            }
        ),
        leaves=_meanings(_LEAVES),
        which=_meanings(_WHICH),
        units=_meanings(_MEASURED),
    )


def _both(listed: str) -> frozenset[str]:
    """Return the words of a list in English and in the language spoken."""
    return frozenset(_plain(word) for word in (*listed.split("|"), *_(listed).split("|")))


def _meanings(lists: Mapping[_Meaning, str]) -> dict[str, _Meaning]:
    """Return word -> meaning; a word that English has too means what it means in the language spoken."""
    english = {_plain(word): meaning for meaning, listed in lists.items() for word in listed.split("|")}
    return english | {
        _plain(word): meaning for meaning, listed in lists.items() for word in _(listed).split("|")
    }


def _plain(word: str) -> str:
    return " ".join(word.casefold().replace("\u2019", "'").split())
