"""A cause as it is named on the command line: by its id, or by its name (or how that begins) in the language spoken."""

from collections.abc import Mapping

from diagnose.language import _
from diagnose.problems import BadInputError, Problem, nearest, shown
from diagnose.rulebase.model import Cause

_FEWEST = 3
"""Letters of a name that must be typed."""


def read_cause(word: str, causes: Mapping[str, Cause]) -> str | None:
    """Return the id of the cause that a word names, None if it names none."""
    word = " ".join(word.split()).casefold()
    if word in causes:
        return word
    begun = [
        one.id for one in causes.values() if len(word) >= _FEWEST and one.name.casefold().startswith(word)
    ]
    return begun[0] if len(begun) == 1 else None


def cause_named(word: str, causes: Mapping[str, Cause], option: str) -> str:
    """Return the id of the cause that a word names.

    Raises:
        BadInputError: it names none; put to the option it was given with.

    """
    found = read_cause(word, causes)
    if found is None:
        expected = _("one of {known}").format(known=", ".join(causes))
        raise BadInputError([Problem(None, None, option, shown(word), expected, nearest(word, causes))])
    return found
