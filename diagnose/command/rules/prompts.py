"""Questions and answers in lines, for `diagnose rules new`."""

import sys
from collections.abc import Callable, Mapping
from typing import TypeVar

from diagnose.command.output import data
from diagnose.command.typed import is_stop
from diagnose.language import _, quoted
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
            raise BadInputError(
                [Problem(None, None, "", _("text that is not UTF-8"), _("UTF-8 text"))]
            ) from None
        if not line or is_stop(line):
            found, expected = _("no more answers"), _("an answer to every question")
            raise BadInputError([Problem(None, None, "", found, expected, _("nothing was written"))])
        try:
            return read(line.strip())
        except AgainError as error:
            data("\n".join(wrapped(str(error))))


def pick(things: str, known: Mapping[Name, str]) -> Callable[[str], Name]:
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
                    part_lines(
                        Part(
                            _("With {word}").format(word=quoted(word)),
                            tuple((f"{n}: {t}",) for n, t in like.items()),
                            True,
                        )
                    )
                )
            )
            raise AgainError(_("Type the name before the colon."))
        raise AgainError(
            _("{word} names none of the {things}; {hint}.").format(
                word=quoted(line), things=things, hint=hint or _("'?' lists them")
            )
        )

    return read


def several(known: Mapping[str, str]) -> Callable[[str], tuple[str, ...]]:
    """Return a reader that takes some of the known words, by number or name, parted by commas."""
    names = list(known)
    by_label = {label.lower(): name for name, label in known.items()}

    def read(line: str) -> tuple[str, ...]:
        chosen = []
        for word in line.replace(",", " ").lower().split():
            if word.isdecimal() and 1 <= int(word) <= len(names):
                chosen.append(names[int(word) - 1])
            elif word in known or word in by_label:
                chosen.append(word if word in known else by_label[word])
            else:
                hint = nearest(word, names)
                said = (
                    _("{word} is none of the answers; {hint}.")
                    if hint
                    else _("{word} is none of the answers.")
                )
                raise AgainError(said.format(word=quoted(word), hint=hint))
        if not chosen:
            raise AgainError(_("Numbers or names of the answers, parted by commas."))
        if len(set(chosen)) == len(names):
            raise AgainError(_("All of them together always hold: leave one out."))
        return tuple(dict.fromkeys(chosen))

    return read


def sentence(least: int = 3, most: int = 1200) -> Callable[[str], str]:
    """Return a reader that takes a text of a legal length."""

    def read(line: str) -> str:
        if not least <= len(line) <= most:
            raise AgainError(_("A text of {least} to {most} characters.").format(least=least, most=most))
        return line

    return read


def _listed(known: Mapping[Name, str]) -> str:
    names = list(known)
    if len(names) <= MOST_LISTED:
        return _("One of: {known}").format(
            known="; ".join(f"{name} ({text})" for name, text in known.items())
        )
    return _("One of: {known}. A word searches them.").format(known=", ".join(names))
