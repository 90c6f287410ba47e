"""The work of `diagnose why`, `next`, `whatif` and `firm`."""

from collections.abc import Sequence
from pathlib import Path

from pydantic import BaseModel

from diagnose.case import AnswerValue
from diagnose.command.opened import Opened, opened
from diagnose.command.output import data, document
from diagnose.diagnosis import Diagnosis
from diagnose.facts import AnswerError
from diagnose.problems import BadInputError, Problem, nearest
from diagnose.questionnaire import TypedError, read_typed
from diagnose.report.reasoning_json import versus_document, why_document
from diagnose.report.reasoning_text import versus_text, why_not_text, why_text
from diagnose.report.supposing_json import firm_document, next_document, what_if_document
from diagnose.report.supposing_text import firm_text, next_text, what_if_text
from diagnose.rulebase.model import RECORD_KINDS

NOT_KNOWN = "?"


def why(path: Path, cause: str, house: Sequence[Path], *, as_json: bool) -> int:
    """Print one cause's whole ledger with its chains, and why it is not first."""
    case = opened(path, house)
    ranked = _cause(case.diagnosis, cause)
    reasons = case.diagnostician.why(case.diagnosis, ranked)
    against = case.diagnostician.why_not(case.diagnosis, ranked)
    if as_json:
        return _end(case, why_document(case.diagnosis, str(path), reasons, against))
    text = why_text(case.diagnosis, ranked, reasons)
    return _end(case, f"{text}\n\n{why_not_text(case.diagnosis, against)}")


def over(path: Path, one: str, other: str, house: Sequence[Path], *, as_json: bool) -> int:
    """Print two causes side by side."""
    case = opened(path, house)
    first, second = _cause(case.diagnosis, one), _cause(case.diagnosis, other)
    if first == second:
        raise BadInputError([Problem(None, None, "--over", repr(other), "another cause than the first")])
    found = case.diagnostician.versus(case.diagnosis, first, second)
    if as_json:
        return _end(case, versus_document(case.diagnosis, str(path), found))
    return _end(case, versus_text(case.diagnosis, found))


def next_(path: Path, house: Sequence[Path], shown: int, *, as_json: bool) -> int:
    """Print what to check next."""
    case = opened(path, house)
    found = case.diagnostician.next_checks(case.diagnosis)
    if as_json:
        return _end(case, next_document(case.diagnosis, str(path), found))
    return _end(case, next_text(case.diagnosis, found, max(shown, 0)))


def what_if(path: Path, answers: Sequence[str], house: Sequence[Path], *, as_json: bool) -> int:
    """Print what other answers would do."""
    case = opened(path, house)
    changes = dict(_change(case.diagnosis, words) for words in answers)
    try:
        found = case.diagnostician.what_if(case.diagnosis, changes)
    except AnswerError as error:
        raise BadInputError(
            [Problem(None, None, "QUESTION=ANSWER", error.found, error.expected, error.mend)]
        ) from None
    if as_json:
        return _end(case, what_if_document(case.diagnosis, str(path), found))
    return _end(case, what_if_text(case.diagnosis, found))


def firm(path: Path, house: Sequence[Path], *, as_json: bool) -> int:
    """Print how sure the ranking is, and what would change it."""
    case = opened(path, house)
    expert, diagnosis = case.diagnostician, case.diagnosis
    firmness, change = expert.how_firm(diagnosis), expert.what_would_change(diagnosis)
    both = expert.conflicts(diagnosis), expert.several(diagnosis)
    if as_json:
        return _end(case, firm_document(diagnosis, str(path), firmness, change, both))
    return _end(case, firm_text(diagnosis, firmness, change, both))


def _end(case: Opened, result: str | BaseModel) -> int:
    """Write the result; return the exit code."""
    if isinstance(result, BaseModel):
        document(result.model_dump(mode="json"))
    else:
        data(result)
    return case.exit


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
        return name, read_typed(known[name], typed, case.date, south=case.place.is_southern)
    except TypedError as error:
        raise BadInputError(
            [Problem(None, None, name, repr(typed), "an answer to its question", str(error))]
        ) from None
