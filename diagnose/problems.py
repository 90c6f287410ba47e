"""A fault as data: what was found, what was expected, how to mend it, and where."""

import difflib
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault in what the tool was given.

    `line` is None when no line can be told; it is never invented. `check` names the check that found it.
    """

    file: str | None
    line: int | None
    key: str
    found: str
    expected: str
    mend: str = ""
    check: str = "input"
    path: tuple[str | int, ...] = ()
    """Where the fault lies in the data, if it lies in data."""

    def sentence(self) -> str:
        """Return the fault as one sentence: place, field, found, expected, how to mend it."""
        place = [self.file] if self.file else []
        if self.line is not None:
            place.append(f"line {self.line}")
        if self.key:
            place.append(self.key)
        start = ", ".join(place) + ": " if place else ""
        end = f"; {self.mend}" if self.mend else ""
        return f"{start}found {self.found}, expected {self.expected}{end}."


class BadInputError(Exception):
    """The user's input cannot be used at all; carries the faults that say why."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(" ".join(problem.sentence() for problem in self.problems))


def nearest(word: str, known: Iterable[str]) -> str:
    """Return "did you mean 'x'" for the known word most like this one, or an empty string."""
    close = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f"did you mean {close[0]!r}" if close else ""


def shown(value: object) -> str:
    """Return a value as it may stand in a sentence: quoted if text, cut if long."""
    try:
        text = repr(value)
    except ValueError:  # Python writes no number of more than 4,300 digits
        return "a number with thousands of digits"
    return text if len(text) <= 60 else text[:57] + "..."
