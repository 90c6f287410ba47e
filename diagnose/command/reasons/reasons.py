"""The work of `diagnose why`, `next`, `whatif` and `firm`."""

from collections.abc import Sequence
from pathlib import Path

from pydantic import BaseModel

from diagnose.case import AnswerValue, Case
from diagnose.command.causes import cause_named
from diagnose.command.opened import Opened, opened, waiting
from diagnose.command.output import RefusedError, data, document
from diagnose.facts import AnswerError
from diagnose.language import _, quoted
from diagnose.problems import BadInputError, Problem, nearest
from diagnose.questionnaire import TypedError, read_typed
from diagnose.report.reasoning_json import versus_document, why_document
from diagnose.report.reasoning_text import versus_text, why_not_text, why_text
from diagnose.report.supposing_json import firm_document, next_document, what_if_document
from diagnose.report.supposing_text import firm_text, next_text, what_if_text
from diagnose.rulebase.model import RECORD_KINDS
from diagnose.rulebase.rulebase import RuleBase

NOT_KNOWN = "?"


def why(path: Path, cause: str, house: Sequence[Path], *, as_json: bool) -> int:
    """Print one cause's whole ledger with its chains, and why it is not first."""
    told = waiting(path, house)
    ranked = cause_named(cause, told.diagnostician.base.causes, _("CAUSE"))
    case = told.diagnosed()
    reasons = case.diagnostician.why(case.diagnosis, ranked)
    against = case.diagnostician.why_not(case.diagnosis, ranked)
    if as_json:
        return _end(case, why_document(case.diagnosis, str(path), reasons, against))
    text = why_text(case.diagnosis, ranked, reasons)
    return _end(case, f"{text}\n\n{why_not_text(case.diagnosis, against)}")


def over(path: Path, one: str, other: str, house: Sequence[Path], *, as_json: bool) -> int:
    """Print two causes side by side."""
    told = waiting(path, house)
    known = told.diagnostician.base.causes
    first, second = cause_named(one, known, _("CAUSE")), cause_named(other, known, "--over")
    if first == second:
        raise BadInputError([Problem(None, None, "--over", quoted(other), _("another cause than the first"))])
    case = told.diagnosed()
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
    told = waiting(path, house)
    changes = dict(_change(told.diagnostician.base, told.case, words) for words in answers)
    case = told.diagnosed()
    try:
        found = case.diagnostician.what_if(case.diagnosis, changes)
    except AnswerError as error:
        raise BadInputError(
            [Problem(None, None, _("QUESTION=ANSWER"), error.found, error.expected, error.mend)]
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


def _change(base: RuleBase, case: Case, words: str) -> tuple[str, AnswerValue | None]:
    """Return a question and the answer to suppose; None for not known."""
    name, equals, typed = (part.strip() for part in words.partition("="))
    known = {q.id: q for q in base.questions.values() if q.kind not in RECORD_KINDS}
    option = _("QUESTION=ANSWER")
    if not equals:
        expected = _("an equals sign, such as medium_now=moist")
        raise BadInputError([Problem(None, None, option, quoted(words), expected)])
    if name not in known:
        expected = _("the id of a question")
        mend = nearest(name, known) or _("see 'diagnose rules list question'")
        raise BadInputError([Problem(None, None, option, quoted(name), expected, mend)])
    if typed == NOT_KNOWN:
        return name, None
    try:
        return name, read_typed(known[name], typed, case.date, south=case.place.is_southern)
    except TypedError as error:
        raise RefusedError(f"{name}={typed}: {error}") from None
