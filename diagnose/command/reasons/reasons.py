"""The work of `diagnose why`, `next`, `whatif` and `firm`."""

import json
from collections.abc import Sequence
from pathlib import Path

from pydantic import BaseModel

from diagnose.case import AnswerValue
from diagnose.casefile import read_case
from diagnose.command.output import Exit, complain, data
from diagnose.diagnosis import Diagnosis, Diagnostician, open_rules
from diagnose.facts import AnswerError
from diagnose.problems import BadInputError, Problem, nearest
from diagnose.questionnaire import TypedError, read_typed
from diagnose.report import reasoning_json
from diagnose.report.reasoning_text import versus_text, why_not_text, why_text
from diagnose.report.supposing_text import firm_text, next_text, what_if_text
from diagnose.rulebase.model import RECORD_KINDS

NOT_KNOWN = "?"


def why(path: Path, cause: str, house: Sequence[Path], *, as_json: bool) -> int:
    """Print one cause's whole ledger with its chains, and why it is not first."""
    opened = _Opened(path, house)
    ranked = _cause(opened.diagnosis, cause)
    reasons = opened.diagnostician.why(opened.diagnosis, ranked)
    against = opened.diagnostician.why_not(opened.diagnosis, ranked)
    if as_json:
        return opened.end(reasoning_json.why_document(opened.diagnosis, str(path), reasons, against))
    text = why_text(opened.diagnosis, ranked, reasons)
    return opened.end(f"{text}\n\n{why_not_text(opened.diagnosis, against)}")


def over(path: Path, one: str, other: str, house: Sequence[Path], *, as_json: bool) -> int:
    """Print two causes side by side."""
    opened = _Opened(path, house)
    first, second = _cause(opened.diagnosis, one), _cause(opened.diagnosis, other)
    if first == second:
        raise BadInputError([Problem(None, None, "--over", repr(other), "another cause than the first")])
    found = opened.diagnostician.versus(opened.diagnosis, first, second)
    if as_json:
        return opened.end(reasoning_json.versus_document(opened.diagnosis, str(path), found))
    return opened.end(versus_text(opened.diagnosis, found))


def next_(path: Path, house: Sequence[Path], shown: int, *, as_json: bool) -> int:
    """Print what to check next."""
    opened = _Opened(path, house)
    found = opened.diagnostician.next_checks(opened.diagnosis)
    if as_json:
        return opened.end(reasoning_json.next_document(opened.diagnosis, str(path), found))
    return opened.end(next_text(opened.diagnosis, found, max(shown, 0)))


def what_if(path: Path, answers: Sequence[str], house: Sequence[Path], *, as_json: bool) -> int:
    """Print what other answers would do."""
    opened = _Opened(path, house)
    changes = dict(_change(opened.diagnosis, words) for words in answers)
    try:
        found = opened.diagnostician.what_if(opened.diagnosis, changes)
    except AnswerError as error:
        raise BadInputError(
            [Problem(None, None, "QUESTION=ANSWER", error.found, error.expected, error.mend)]
        ) from None
    if as_json:
        return opened.end(reasoning_json.what_if_document(opened.diagnosis, str(path), found))
    return opened.end(what_if_text(opened.diagnosis, found))


def firm(path: Path, house: Sequence[Path], *, as_json: bool) -> int:
    """Print how sure the ranking is, and what would change it."""
    opened = _Opened(path, house)
    expert, diagnosis = opened.diagnostician, opened.diagnosis
    firmness, change = expert.how_firm(diagnosis), expert.what_would_change(diagnosis)
    both = expert.conflicts(diagnosis), expert.several(diagnosis)
    if as_json:
        return opened.end(reasoning_json.firm_document(diagnosis, str(path), firmness, change, both))
    return opened.end(firm_text(diagnosis, firmness, change, both))


class _Opened:
    """A case file read and diagnosed, and the faults found on the way."""

    def __init__(self, path: Path, house: Sequence[Path]) -> None:
        case, problems = read_case(path)
        self.diagnostician: Diagnostician = open_rules(house)
        self.diagnosis: Diagnosis = self.diagnostician.diagnose(case)
        self._path, self._problems = path, problems + self.diagnosis.problems

    def end(self, result: str | BaseModel) -> int:
        """Write the result, and what could not be used; return the exit code."""
        complain(self._problems, str(self._path))
        if isinstance(result, BaseModel):
            result = json.dumps(result.model_dump(mode="json"), indent=1, ensure_ascii=False)
        data(result)
        return Exit.BAD_INPUT if self._problems else Exit.DONE


def _cause(diagnosis: Diagnosis, cause: str) -> str:
    known = diagnosis.base.causes
    if cause not in known:
        mend = nearest(cause, known)
        raise BadInputError([Problem(None, None, "CAUSE", repr(cause), "one of " + ", ".join(known), mend)])
    return cause


def _change(diagnosis: Diagnosis, words: str) -> tuple[str, AnswerValue | None]:
    name, equals, typed = (part.strip() for part in words.partition("="))
    known = {q.id: q for q in diagnosis.base.questions.values() if q.kind not in RECORD_KINDS}
    if not equals:
        raise BadInputError(
            [Problem(None, None, "QUESTION=ANSWER", repr(words), "an equals sign, such as medium_now=moist")]
        )
    if name not in known:
        expected = "the id of a question"
        mend = nearest(name, known) or "see 'diagnose rules list question'"
        raise BadInputError([Problem(None, None, "QUESTION=ANSWER", repr(name), expected, mend)])
    if typed == NOT_KNOWN:
        return name, None
    case = diagnosis.case
    try:
        return name, read_typed(known[name], typed, case.date, south=(case.place.latitude or 0) < 0)
    except TypedError as error:
        raise BadInputError(
            [Problem(None, None, name, repr(typed), "an answer to its question", str(error))]
        ) from None
