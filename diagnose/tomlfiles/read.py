"""Read a TOML file into plain data, and plain data into a model."""

import itertools
import re
import stat
from pathlib import Path
from typing import Any, TypeVar

import tomli
from pydantic import BaseModel, ValidationError

from diagnose.language import _, marked, numeral
from diagnose.problems import BadInputError, Problem, refusal
from diagnose.tomlfiles.faults import faults
from diagnose.tomlfiles.lines import line_index

MOST_BYTES = 1_000_000  # far above any file a person writes; keeps a wrong file from stalling the tool

M = TypeVar("M", bound=BaseModel)

_SLIPS = (
    # what the reader says, and what to do about it
    ("Cannot overwrite", marked("remove the key that is given twice")),
    ("twice", marked("remove the table that is given twice, or write [[name]] for a list of tables")),
    (
        "Invalid value",
        marked('put texts in straight quotes ("); numbers, true, false and dates stand without'),
    ),
    ("Illegal character '\\n'", marked("close the text with a quote on the same line")),
    ("Unterminated string", marked("close the text with a quote")),
    ("Expected ']' at the end of a table", marked("close the header with ]")),
    ("Expected ']]'", marked("close the header with ]]")),
    (
        "Expected '=' after a key",
        marked("write key = value (a comment begins with #, a decimal has a point)"),
    ),
    ("Unclosed array", marked("a comma or the closing ] is missing")),
    ("Unclosed inline table", marked("a comma or the closing brace is missing")),
    (
        "Expected newline or end",
        marked("one key a line; is a comma, a quote or a bracket missing before it?"),
    ),
)


def read_toml(path: Path) -> tuple[dict[str, Any], str]:
    """Return a file's data and its text.

    Raises:
        BadInputError: the file cannot be read, is too large, is not UTF-8, or is not TOML.

    """
    text = _text(path)
    try:
        return tomli.loads(text), text
    except tomli.TOMLDecodeError as error:
        raise BadInputError([_not_toml(str(path), str(error), text)]) from None
    except RecursionError:
        raise BadInputError([_too_deep(str(path))]) from None
    except ValueError:  # Python reads no more than 4,300 digits
        found, expected = _("a number with thousands of digits"), _("numbers of a usual length")
        raise BadInputError([Problem(str(path), None, "", found, expected, check="toml")]) from None


def fit(data: dict[str, Any], text: str, model: type[M], file: str | None, most: int | None = None) -> M:
    """Return the data as a model.

    Raises:
        BadInputError: with one fault for every key that does not fit, each with its line; `most` if there are more.

    """
    try:
        return model.model_validate(data)
    except ValidationError as error:
        try:
            problems = tuple(itertools.islice(faults(error, model, data, file, line_index(text)), most))
        except RecursionError:
            problems = (_too_deep(file),)
        raise BadInputError(problems) from None


def _not_toml(file: str, complaint: str, text: str) -> Problem:
    """Return what the TOML reader complains of, with a hint at the slip that usually causes it."""
    place = re.search(r" *[(]at (?:line (\d+)|end of document).*[)]$", complaint)
    line = (int(place[1]) if place[1] else text.count("\n", 0, len(text.rstrip())) + 1) if place else None
    said = complaint[: place.start()] if place else complaint
    slip = next((mend for part, mend in _SLIPS if part in said), None)
    if slip is None:  # the reader's own words are better than none
        found, mend = _("text that is not TOML ({said})").format(said=said), _("mend that line")
    else:
        found, mend = _("text that is not TOML"), _(slip)
    return Problem(file, line, "", found, _('lines such as key = "text" or key = 12'), mend, check="toml")


def _too_deep(file: str | None) -> Problem:
    found = _("lists or tables nested hundreds of levels deep")
    return Problem(file, None, "", found, _("a few levels"), check="toml")


def _text(path: Path) -> str:
    def refuse(found: str, expected: str, mend: str, line: int | None = None) -> BadInputError:
        return BadInputError([Problem(str(path), line, "", found, expected, mend, check="file")])

    try:
        size, mode = path.stat().st_size, path.stat().st_mode
        if size > MOST_BYTES:
            mend = _("split it or check that it is the right file")
            raise refuse(
                _("{count} bytes").format(count=numeral(size, ",")),
                _("at most {most}").format(most=numeral(MOST_BYTES, ",")),
                mend,
            )
        if not stat.S_ISREG(mode) and not stat.S_ISDIR(mode):  # reading a pipe or device might never end
            raise refuse(_("a pipe or device"), _("a file"), _("name an ordinary file"))
        content = path.read_bytes()
    except FileNotFoundError:
        raise refuse(_("no such file"), _("a TOML file"), _("check the name")) from None
    except IsADirectoryError:
        raise refuse(_("a folder"), _("a TOML file"), _("name a file in it")) from None
    except OSError as error:
        found = refusal(error)
        raise refuse(found, _("a file that can be read"), _("check its permissions")) from None
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise refuse(_("a byte that is not UTF-8"), _("UTF-8 text"), _("save it as UTF-8"), line) from None
