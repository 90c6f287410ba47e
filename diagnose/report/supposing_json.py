"""Suppositions as data for other programs: what to check next, what other answers would do, how sure the ranking is.

The documents read their fields from the records of `diagnose.reasoning`, where each field is explained. Each shape is
versioned and published as a JSON Schema.
"""

from diagnose.case import AnswerValue
from diagnose.diagnosis import Diagnosis
from diagnose.reasoning.change import WhatIfAnswer, WhatWouldChange
from diagnose.reasoning.conflicts import Conflicts
from diagnose.reasoning.firmness import Firmness
from diagnose.reasoning.next_checks import NextChecks
from diagnose.reasoning.several import Several
from diagnose.report.documents import Document, Headed, Id, LineDocument, head


class MoveDocument(Document):
    """What an answer does to one cause."""

    cause: str
    decibans: float
    before: float
    after: float


class OutcomeDocument(Document):
    """One possible answer and what it would do."""

    answer: AnswerValue
    said: str
    chance: float
    bits: float
    moves: tuple[MoveDocument, ...]
    first: str


class CheckDocument(Document):
    """One open question, weighed."""

    question: Id
    bits: float
    minutes: float
    bits_a_minute: float
    changes_first: float
    hardly_matters: bool
    said_not_known: bool
    outcomes: tuple[OutcomeDocument, ...]


class NextDocument(Headed):
    """What to check next."""

    checks: tuple[CheckDocument, ...]
    unweighed: tuple[Id, ...]
    enough: bool


class ChangedDocument(Document):
    """One answer and what it would be instead; null: not known."""

    question: Id
    now: AnswerValue | None
    instead: AnswerValue | None


class ChangesDocument(Document):
    """Some changed answers and what they would do."""

    changes: tuple[ChangedDocument, ...]
    moves: tuple[MoveDocument, ...]
    changes_first: bool


class WhatIfDocument(Headed):
    """What other answers would do."""

    changes: tuple[ChangedDocument, ...]
    moves: tuple[MoveDocument, ...]
    changes_first: bool
    order: tuple[str, ...]
    """Causes as they would then be ranked."""


class WithoutDocument(Document):
    """What would come of the ranking without one answer."""

    question: Id
    first: str
    lead_db: float


class FirmnessDocument(Document):
    """How firm the first place is."""

    stays_first: float
    stays_in_two: float
    word: str
    lead_db: float
    without: tuple[WithoutDocument, ...]


class ChangeDocument(Document):
    """The smallest sets of answers that would put another cause first."""

    size: int
    count: int
    searched: int
    cut_off: bool
    answers: int
    found: tuple[ChangesDocument, ...]


class BothWaysDocument(Document):
    """A cause with strong lines for and against it."""

    cause: Id
    lines_for: tuple[LineDocument, ...]
    lines_against: tuple[LineDocument, ...]


class ContradictionDocument(Document):
    """Answers that hardly go together."""

    id: str
    text: str
    facts: tuple[str, ...]
    origin: tuple[str, ...]
    house: bool


class ConflictsDocument(Document):
    """All that pulls two ways."""

    both_ways: tuple[BothWaysDocument, ...]
    contradictions: tuple[ContradictionDocument, ...]


class SignDocument(Document):
    """A finding or an answer, and the causes it speaks for."""

    kind: str
    id: str
    text: str
    causes: tuple[str, ...]


class ExplainsDocument(Document):
    """A probable cause and the signs that speak for it."""

    cause: Id
    signs: tuple[SignDocument, ...]
    alone: tuple[SignDocument, ...]


class SeveralDocument(Document):
    """What the probable causes explain between them."""

    probable: tuple[ExplainsDocument, ...]
    unexplained: tuple[SignDocument, ...]
    silent: tuple[SignDocument, ...]


class FirmDocument(Headed):
    """How sure the ranking is."""

    firmness: FirmnessDocument
    change: ChangeDocument
    conflicts: ConflictsDocument
    several: SeveralDocument


def next_document(diagnosis: Diagnosis, case: str, found: NextChecks) -> NextDocument:
    """Return what to check next."""
    return NextDocument.model_validate(
        head(diagnosis, case) | {name: getattr(found, name) for name in ("checks", "unweighed", "enough")}
    )


def what_if_document(diagnosis: Diagnosis, case: str, found: WhatIfAnswer) -> WhatIfDocument:
    """Return what other answers would do."""
    return WhatIfDocument.model_validate(
        head(diagnosis, case)
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
        head(diagnosis, case)
        | {"firmness": firmness, "change": change, "conflicts": both[0], "several": both[1]}
    )
