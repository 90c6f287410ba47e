"""Questions and answers in lines, for `diagnose rules new`."""

import sys
from collections.abc import Callable, Mapping
from typing import TypeVar

from diagnose.command.output import data
from diagnose.problems import BadInputError, Problem, nearest
from diagnose.report.rulebook.as_text import part_lines
from diagnose.report.rulebook.page import Part
from diagnose.report.text import wrapped

T = TypeVar("T")
Name = TypeVar("Name", bound=str)
MOST_LISTED = 12


class AgainError(Exception):
    """What was typed cannot be used; says why, and the same is asked again."""


def ask(prompt: str, read: Callable[[str], T]) -> T:
    """Return what `read` makes of the line typed; ask again while it cannot.

    Raises:
        BadInputError: nothing more is typed, or "stop".

    """
    while True:
        data("\n" + "\n".join(wrapped(prompt)))
        try:
            line = sys.stdin.readline()
        except UnicodeDecodeError:
            raise BadInputError([Problem(None, None, "", "text that is not UTF-8", "UTF-8 text")]) from None
        if not line or line.strip().lower() == "stop":
            found, expected = "no more answers", "an answer to every question"
            raise BadInputError([Problem(None, None, "", found, expected, "nothing was written")])
        try:
            return read(line.strip())
        except AgainError as error:
            data("\n".join(wrapped(str(error))))


def pick(what: str, known: Mapping[Name, str]) -> Callable[[str], Name]:
    """Return a reader that takes one of the known names; "?" lists them, a part of one lists those like it."""

    def read(line: str) -> Name:
        word = line.lower()
        for name in known:
            if name == word:
                return name
        if word == "?" or not word:
            raise AgainError(_listed(known))
        like = {name: text for name, text in known.items() if word in name or word in text.lower()}
        hint = nearest(word, known)
        if like and len(like) <= MOST_LISTED:
            data(
                "\n".join(
                    part_lines(Part(f"With {word!r}", tuple((f"{n}: {t}",) for n, t in like.items()), True))
                )
            )
            raise AgainError("Type the name before the colon.")
        raise AgainError(f"No {what} is called {line!r}" + (f"; {hint}." if hint else "; '?' lists them."))

    return read


def several(known: Mapping[str, str]) -> Callable[[str], tuple[str, ...]]:
    """Return a reader that takes some of the known words, by number or name, parted by commas."""
    names = list(known)

    def read(line: str) -> tuple[str, ...]:
        chosen = []
        for word in line.replace(",", " ").lower().split():
            if word.isdecimal() and 1 <= int(word) <= len(names):
                chosen.append(names[int(word) - 1])
            elif word in known:
                chosen.append(word)
            else:
                hint = nearest(word, names)
                raise AgainError(f"{word!r} is none of the answers" + (f"; {hint}." if hint else "."))
        if not chosen:
            raise AgainError("Numbers or names of the answers, parted by commas.")
        if len(set(chosen)) == len(names):
            raise AgainError("All of them together always hold: leave one out.")
        return tuple(dict.fromkeys(chosen))

    return read


def sentence(least: int = 3, most: int = 1200) -> Callable[[str], str]:
    """Return a reader that takes a text of a legal length."""

    def read(line: str) -> str:
        if not least <= len(line) <= most:
            raise AgainError(f"A text of {least} to {most} characters.")
        return line

    return read


def _listed(known: Mapping[Name, str]) -> str:
    names = list(known)
    if len(names) <= MOST_LISTED:
        return "One of: " + "; ".join(f"{name} ({text})" for name, text in known.items())
    return "One of: " + ", ".join(names) + ". A word searches them."
