"""Opening a case: read its file, take the rules, diagnose, and find the question it was left at. Owns no widgets."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from diagnose import locations
from diagnose.case import Case
from diagnose.casefile import read_case, write_case
from diagnose.examples import in_language, is_example
from diagnose.journal.records import CaseRecord
from diagnose.language import _
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
    file: Path | None = None
    """The file it was read from; None for a new case and for one of the journal."""
    record: CaseRecord | None = None
    """The journal's record, if it is a case of the journal."""
    close: Callable[[], None] = lambda: None
    """Called when the case is left, the application included."""

    @property
    def mark(self) -> Path:
        """What a bookmark knows the case by."""
        path = self.questionnaire.path
        return path if self.record is None else journal_mark(path, self.record)


def open_case(
    loader: RuleLoader,
    path: Path | None,
    today: dt.date,
    *,
    at: str | None = None,
    copied: Callable[[str], None] = lambda _title: None,
) -> Opened:
    """Return the case in a file, a new one without a file; at a question, or where it was left.

    Examples and faulty files are left as they are: the first answer starts a new file. `copied` is told the
    title of an example's copy once it is written. Raises BadInputError if nothing of the file can be used.
    """
    case, problems = read_case(path) if path else (Case(date=today), ())
    rules = loader.get()
    example = path is not None and is_example(path)
    if path is not None and not example and not problems:
        mark = at or read_bookmark(locations.bookmarks(), path)
        return Opened(Questionnaire(rules, case, path, at_once=False, at=mark), file=path)
    if example:
        case = in_language(case)
    here = new_case_path(locations.user_cases(), today, case.title)
    keep = _copy_keeper(here, case.title, copied) if example else None
    remark = (
        _("The file stays as it is; answers from now on go to {path}.").format(path=here) if problems else ""
    )
    return Opened(Questionnaire(rules, case, here, at_once=False, at=at, keep=keep), problems, remark, path)


def journal_mark(journal: Path, record: CaseRecord) -> Path:
    """Return what a bookmark knows a case of a journal by."""
    return journal / f"case {record.id}"


def _copy_keeper(here: Path, title: str, copied: Callable[[str], None]) -> Callable[[Case, Case], None]:
    """Keep answers to an example in a copy that is called one, and tell of it when it is begun."""
    name = _("{title} (copy of the example)").format(title=title)

    def keep(_before: Case, after: Case) -> None:
        begun = here.exists()
        write_case(here, after.model_copy(update={"title": name}) if after.title == title else after)
        if not begun:
            copied(name)

    return keep
