"""Opening a case: read its file, take the rules, diagnose, and find the question it was left at. Owns no widgets."""

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

from diagnose import locations
from diagnose.case import Case
from diagnose.casefile import read_case
from diagnose.problems import Problem
from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.bookmarks import read_bookmark
from diagnose.questionnaire.questionnaire import new_case_path
from diagnose.screens.loading import RuleLoader


@dataclass(frozen=True, slots=True)
class Opened:
    """An opened case, what of its file could not be used, and a remark on where answers go."""

    questionnaire: Questionnaire
    problems: tuple[Problem, ...] = ()
    remark: str = ""


def open_case(loader: RuleLoader, path: Path | None, today: dt.date) -> Opened:
    """Return the case in a file, a new one without a file.

    Demo cases and faulty files are left as they are: the first answer starts a new file.
    Raises BadInputError if nothing of the file can be used.
    """
    case, problems = read_case(path) if path else (Case(date=today), ())
    rules = loader.get()
    remark = ""
    if path is None or path.parent == locations.demo_cases() or problems:
        here = new_case_path(locations.user_cases(), today, case.title)
        if problems:
            remark = f"The file stays as it is; answers from now on go to {here}."
        at = None
    else:
        here, at = path, read_bookmark(locations.bookmarks(), path)
    return Opened(Questionnaire(rules, case, here, at_once=False, at=at), problems, remark)
