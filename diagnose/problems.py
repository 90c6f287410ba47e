"""A fault as data: what was found, what was expected, how to mend it, and where."""

import datetime as dt
import difflib
import errno
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from diagnose.language import BrokenFile, _, marked, quoted

_LONG = 60
"""Letters of a value in a sentence, at the most."""
_REFUSALS = {
    errno.ENOENT: marked("no such file or folder"),
    errno.EACCES: marked("no permission"),
    errno.EPERM: marked("no permission"),
    errno.EROFS: marked("a disk that can only be read"),
    errno.EISDIR: marked("a folder"),
    errno.ENOTDIR: marked("a file in place of a folder"),
    errno.EEXIST: marked("a file that is there already"),
    errno.ENOSPC: marked("a full disk"),
    errno.ENAMETOOLONG: marked("a name that is too long"),
}


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
            place.append(_("line {line}").format(line=self.line))
        if self.key:
            place.append(self.key)
        said = _("found {found}, expected {expected}").format(found=self.found, expected=self.expected)
        if self.mend:
            said = _("{fault}; {mend}").format(fault=said, mend=self.mend)
        whole = f"{', '.join(place)}: {said}" if place else said
        return whole if whole.endswith((".", "?", "!")) else f"{whole}."


class BadInputError(Exception):
    """The user's input cannot be used at all; carries the faults that say why."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(" ".join(problem.sentence() for problem in self.problems))


def untranslated(broken: BrokenFile) -> Problem:
    """Return a file of translations that cannot be read as a fault."""
    found = _("text that is no translation")
    mend = _("mend that line or the one before; until then the file's texts are said in English")
    return Problem(broken.file, broken.line, "", found, 'msgid "..." / msgstr "..."', mend, check="file")


def refusal(error: OSError) -> str:
    """Return why the system refused a file, in the language spoken if it is one of the common reasons."""
    return _(_REFUSALS[error.errno]) if error.errno in _REFUSALS else error.strerror or str(error)


def nearest(word: str, known: Iterable[str]) -> str:
    """Return "did you mean 'x'" for the known word most like this one, or an empty string."""
    close = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return _("did you mean {word}").format(word=quoted(close[0])) if close else ""


def one_of(names: Iterable[str]) -> str:
    """Return "one of a, b, c" for the names of which one was expected."""
    return _("one of {names}").format(names=", ".join(names))


def shown(value: object) -> str:
    """Return a value as it may stand in a sentence: quoted if text, as in a TOML file if not, cut if long."""
    if isinstance(value, str):
        return quoted(value if len(value) <= _LONG else value[: _LONG - 3] + "...")
    try:
        text = _written(value)
    except ValueError:  # Python writes no number of more than 4,300 digits
        return _("a number with thousands of digits")
    return text if len(text) <= _LONG else text[: _LONG - 3] + "..."


def key_shown(key: str) -> str:
    """Return a key as it may stand in a sentence: as it is, unless it would break the line or drive a terminal."""
    return key if key.isprintable() else quoted(key)


def _written(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    if isinstance(value, Mapping):
        return (
            "{ " + ", ".join(f"{key_shown(key)} = {_written(inner)}" for key, inner in value.items()) + " }"
        )
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_written, value))}]"
    return quoted(value) if isinstance(value, str) else repr(value)
