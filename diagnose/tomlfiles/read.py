"""Read a TOML file into plain data, and plain data into a model."""

import re
from pathlib import Path
from typing import Any, TypeVar

import tomli
from pydantic import BaseModel, ValidationError

from diagnose.problems import BadInputError, Problem, shown
from diagnose.tomlfiles.faults import faults
from diagnose.tomlfiles.lines import line_index

MOST_BYTES = 1_000_000  # far above any file a person writes; keeps a wrong file from stalling the tool

M = TypeVar("M", bound=BaseModel)


def read_toml(path: Path) -> tuple[dict[str, Any], str]:
    """Return a file's data and its text.

    Raises:
        BadInputError: the file cannot be read, is too large, is not UTF-8, or is not TOML.

    """
    text = _text(path)
    try:
        return tomli.loads(text), text
    except tomli.TOMLDecodeError as error:
        line = re.search(r"line (\d+)", str(error))
        raise BadInputError(
            [
                Problem(
                    str(path),
                    int(line[1]) if line else None,
                    "",
                    f"text that is not TOML ({re.sub(r' *[(]at .*[)]$', '', str(error))})",
                    'lines such as key = "text" or key = 12',
                    "mend that line",
                    check="toml",
                )
            ]
        ) from None
    except RecursionError:
        raise BadInputError(
            [Problem(str(path), None, "", "lists or tables nested very deep", "a few levels", check="toml")]
        ) from None


def fit(data: dict[str, Any], text: str, model: type[M], file: str | None) -> M:
    """Return the data as a model.

    Raises:
        BadInputError: with one fault for every key that does not fit, each with its line.

    """
    try:
        return model.model_validate(data)
    except ValidationError as error:
        raise BadInputError(faults(error, model, data, file, line_index(text))) from None
    except RecursionError:
        raise BadInputError(
            [Problem(file, None, "", "conditions nested very deep", "a few levels")]
        ) from None


def _text(path: Path) -> str:
    def refuse(found: str, expected: str, mend: str) -> BadInputError:
        return BadInputError([Problem(str(path), None, "", found, expected, mend, check="file")])

    try:
        if path.stat().st_size > MOST_BYTES:
            raise refuse(
                f"{path.stat().st_size:,} bytes",
                f"at most {MOST_BYTES:,}",
                "split it or check that it is the right file",
            )
        return path.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        raise refuse("no such file", "a TOML file", "check the name") from None
    except IsADirectoryError:
        raise refuse("a folder", "a TOML file", "name a file in it") from None
    except OSError as error:
        raise refuse(
            shown(error.strerror or str(error)), "a file that can be read", "check its permissions"
        ) from None
    except UnicodeDecodeError as error:
        raise refuse(f"a byte that is not UTF-8 at {error.start}", "UTF-8 text", "save it as UTF-8") from None
