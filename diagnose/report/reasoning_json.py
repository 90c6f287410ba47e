"""Reasons as data for other programs; each shape is versioned and published as a JSON Schema.

The documents read their fields from the records of `diagnose.reasoning`, where each field is explained.
"""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict

from diagnose.case import AnswerValue
from diagnose.diagnosis import Diagnosis
from diagnose.reasoning.change import WhatIfAnswer, WhatWouldChange
from diagnose.reasoning.conflicts import Conflicts
from diagnose.reasoning.firmness import Firmness
from diagnose.reasoning.next_checks import NextChecks
from diagnose.reasoning.several import Several
from diagnose.reasoning.versus import Versus
from diagnose.reasoning.why import Reason
from diagnose.reasoning.why_not import WhyNot

VERSION: Literal[1] = 1

Id = Annotated[str, BeforeValidator(lambda entry: getattr(entry, "id", entry))]
"""The id of a question or a cause, whole entries being known by theirs."""


class _Document(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", from_attributes=True)


class _Headed(_Document):
    version: Literal[1] = VERSION
    case: str
    rules: str
    """Hash of the rule base."""
    first: str
    """The cause that comes first."""


class LineDocument(_Document):
    """One line of a ledger."""

    kind: Literal["prior", "evidence", "discount"]
    decibans: float
    text: str
    rule: str
    facts: tuple[str, ...]
    findings: tuple[str, ...]
    origin: tuple[str, ...]
    house: bool


class StepDocument(_Document):
    """One link of a chain from a line down to the answers."""

    text: str
    kind: str
    id: str
    origin: tuple[str, ...]
    below: tuple["StepDocument", ...]


class ReasonDocument(_Document):
    """A line, its share of all weight, and what it rests on."""

    line: LineDocument
    share: float
    steps: tuple[StepDocument, ...]


class LiftDocument(_Document):
    """The answer to an open question that does most for a cause."""

    question: Id
    answer: AnswerValue
    said: str
    decibans: float
    gap_db: float
    chance: float
    passes: bool


class WhyDocument(_Headed):
    """Why a cause has its rank, and why it is not first."""

    cause: str
    rank: int
    score_db: float
    reasons: tuple[ReasonDocument, ...]
    gap_db: float
    lifts: tuple[LiftDocument, ...]
    together: tuple[LiftDocument, ...]
    best_gap_db: float


class RowDocument(_Document):
    """What one matter says to either cause."""

    one: tuple[LineDocument, ...]
    other: tuple[LineDocument, ...]
    difference: float


class SeparatingDocument(_Document):
    """An open question that tells two causes apart."""

    question: str
    expected_db: float


class VersusDocument(_Headed):
    """One cause over another."""

    one: Id
    other: Id
    difference: float
    rows: tuple[RowDocument, ...]
    deciding: int
    """How many of the rows for the leading cause decide: without them the lead would be gone."""
    separating: tuple[SeparatingDocument, ...]


class MoveDocument(_Document):
    """What an answer does to one cause."""

    cause: str
    decibans: float
    before: float
    after: float


class OutcomeDocument(_Document):
    """One possible answer and what it would do."""

    answer: AnswerValue
    said: str
    chance: float
    bits: float
    moves: tuple[MoveDocument, ...]
    first: str


class CheckDocument(_Document):
    """One open question, weighed."""

    question: Id
    bits: float
    minutes: float
    bits_a_minute: float
    changes_first: float
    hardly_matters: bool
    said_not_known: bool
    outcomes: tuple[OutcomeDocument, ...]


class NextDocument(_Headed):
    """What to check next."""

    checks: tuple[CheckDocument, ...]
    unweighed: tuple[Id, ...]
    enough: bool


class ChangedDocument(_Document):
    """One answer and what it would be instead; null: not known."""

    question: Id
    now: AnswerValue | None
    instead: AnswerValue | None


class ChangesDocument(_Document):
    """Some changed answers and what they would do."""

    changes: tuple[ChangedDocument, ...]
    moves: tuple[MoveDocument, ...]
    changes_first: bool


class WhatIfDocument(_Headed):
    """What other answers would do."""

    changes: tuple[ChangedDocument, ...]
    moves: tuple[MoveDocument, ...]
    changes_first: bool
    order: tuple[str, ...]
    """Causes as they would then be ranked."""


class WithoutDocument(_Document):
    """What would come of the ranking without one answer."""

    question: Id
    first: str
    lead_db: float


class FirmnessDocument(_Document):
    """How firm the first place is."""

    stays_first: float
    stays_in_two: float
    word: str
    lead_db: float
    without: tuple[WithoutDocument, ...]


class ChangeDocument(_Document):
    """The smallest sets of answers that would put another cause first."""

    size: int
    count: int
    searched: int
    cut_off: bool
    answers: int
    found: tuple[ChangesDocument, ...]


class BothWaysDocument(_Document):
    """A cause with strong lines for and against it."""

    cause: Id
    lines_for: tuple[LineDocument, ...]
    lines_against: tuple[LineDocument, ...]


class ContradictionDocument(_Document):
    """Answers that hardly go together."""

    id: str
    text: str
    facts: tuple[str, ...]
    origin: tuple[str, ...]
    house: bool


class ConflictsDocument(_Document):
    """All that pulls two ways."""

    both_ways: tuple[BothWaysDocument, ...]
    contradictions: tuple[ContradictionDocument, ...]


class SignDocument(_Document):
    """A finding or an answer, and the causes it speaks for."""

    kind: str
    id: str
    text: str
    causes: tuple[str, ...]


class ExplainsDocument(_Document):
    """A probable cause and the signs that speak for it."""

    cause: Id
    signs: tuple[SignDocument, ...]
    alone: tuple[SignDocument, ...]


class SeveralDocument(_Document):
    """What the probable causes explain between them."""

    probable: tuple[ExplainsDocument, ...]
    unexplained: tuple[SignDocument, ...]
    silent: tuple[SignDocument, ...]


class FirmDocument(_Headed):
    """How sure the ranking is."""

    firmness: FirmnessDocument
    change: ChangeDocument
    conflicts: ConflictsDocument
    several: SeveralDocument


def why_document(
    diagnosis: Diagnosis, case: str, reasons: tuple[Reason, ...], against: WhyNot
) -> WhyDocument:
    """Return why a cause has its rank."""
    ranked = against.ranked
    return WhyDocument.model_validate(
        _head(diagnosis, case)
        | {"cause": ranked.id, "rank": ranked.rank, "score_db": ranked.score_db, "reasons": reasons}
        | {name: getattr(against, name) for name in ("gap_db", "lifts", "together", "best_gap_db")}
    )


def versus_document(diagnosis: Diagnosis, case: str, found: Versus) -> VersusDocument:
    """Return one cause over another."""
    return VersusDocument.model_validate(
        _head(diagnosis, case)
        | {name: getattr(found, name) for name in ("one", "other", "difference", "rows")}
        | {
            "deciding": len(found.deciding),
            "separating": tuple(
                SeparatingDocument(question=each.check.question.id, expected_db=each.expected_db)
                for each in found.separating
            ),
        }
    )


def next_document(diagnosis: Diagnosis, case: str, found: NextChecks) -> NextDocument:
    """Return what to check next."""
    return NextDocument.model_validate(
        _head(diagnosis, case) | {name: getattr(found, name) for name in ("checks", "unweighed", "enough")}
    )


def what_if_document(diagnosis: Diagnosis, case: str, found: WhatIfAnswer) -> WhatIfDocument:
    """Return what other answers would do."""
    return WhatIfDocument.model_validate(
        _head(diagnosis, case)
        | {name: getattr(found, name) for name in ("changes", "moves", "changes_first")}
        | {"order": found.after.order}
    )


def firm_document(
    diagnosis: Diagnosis,
    case: str,
    firmness: Firmness,
    change: WhatWouldChange,
    both: tuple[Conflicts, Several],
) -> FirmDocument:
    """Return how sure the ranking is."""
    return FirmDocument.model_validate(
        _head(diagnosis, case)
        | {"firmness": firmness, "change": change, "conflicts": both[0], "several": both[1]}
    )


def _head(diagnosis: Diagnosis, case: str) -> dict[str, Any]:
    return {"case": case, "rules": diagnosis.base.hash, "first": diagnosis.ranking.first.id}
