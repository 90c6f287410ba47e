"""What the grower chose once for all cases: units, colours, order of questions, language. One small TOML file."""

from pathlib import Path
from typing import Literal

import tomli_w

from diagnose.case import Record
from diagnose.language import _
from diagnose.problems import BadInputError, Problem, refusal
from diagnose.tomlfiles.read import fit, read_toml
from diagnose.wholefile import write_whole


class Settings(Record):
    """The settings, each with what holds until it is chosen."""

    units: Literal["metric", "imperial"] = "metric"
    """Units that numbers are asked for and shown in; cases are always stored metric."""
    colours: Literal["dark", "light", "plain"] = "dark"
    """`plain` uses the terminal's own two colours. NO_COLOR in the environment means plain whatever is set here."""
    order: Literal["subject", "telling"] = "subject"
    """In which order questions come: subject by subject, or the most telling first."""
    language: str = ""
    """Code of the language to speak, such as `de`; empty means the one that the environment asks for."""


def read_settings(file: Path) -> tuple[Settings, tuple[Problem, ...]]:
    """Return the settings in a file, and its faults; a faulty file counts as none."""
    if not file.exists():
        return Settings(), ()
    try:
        data, text = read_toml(file)
        return fit(data, text, Settings, str(file)), ()
    except BadInputError as error:
        return Settings(), error.problems


def write_settings(file: Path, settings: Settings) -> tuple[Problem, ...]:
    """Write the settings; return what kept them from being written."""
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        write_whole(file, tomli_w.dumps(settings.model_dump(exclude_defaults=True)).encode())
    except OSError as error:
        found = _("a file that cannot be written ({reason})").format(reason=refusal(error))
        return (
            Problem(str(file), None, "", found, _("a file that can be written"), _("check its permissions")),
        )
    return ()
