"""Reasons as data for other programs: why a cause has its rank, and one cause over another.

The documents read their fields from the records of `diagnose.reasoning`, where each field is explained. Each shape is
versioned and published as a JSON Schema.
"""

from diagnose.case import AnswerValue
from diagnose.diagnosis import Diagnosis
from diagnose.reasoning.versus import Versus
from diagnose.reasoning.why import Reason
from diagnose.reasoning.why_not import WhyNot
from diagnose.report.documents import Document, Headed, Id, LineDocument, head


class StepDocument(Document):
    """One link of a chain from a line down to the answers."""

    text: str
    kind: str
    id: str
    origin: tuple[str, ...]
    below: tuple["StepDocument", ...]


class ReasonDocument(Document):
    """A line, its share of all weight, and what it rests on."""

    line: LineDocument
    share: float
    steps: tuple[StepDocument, ...]


class LiftDocument(Document):
    """The answer to an open question that does most for a cause."""

    question: Id
    answer: AnswerValue
    said: str
    decibans: float
    gap_db: float
    chance: float
    passes: bool


class WhyDocument(Headed):
    """Why a cause has its rank, and why it is not first."""

    cause: str
    rank: int
    score_db: float
    reasons: tuple[ReasonDocument, ...]
    gap_db: float
    lifts: tuple[LiftDocument, ...]
    together: tuple[LiftDocument, ...]
    best_gap_db: float


class RowDocument(Document):
    """What one matter says to either cause."""

    one: tuple[LineDocument, ...]
    other: tuple[LineDocument, ...]
    difference: float


class SeparatingDocument(Document):
    """An open question that tells two causes apart."""

    question: str
    expected_db: float


class VersusDocument(Headed):
    """One cause over another."""

    one: Id
    other: Id
    difference: float
    rows: tuple[RowDocument, ...]
    deciding: int
    """How many of the rows for the leading cause decide: without them the lead would be gone."""
    separating: tuple[SeparatingDocument, ...]


def why_document(
    diagnosis: Diagnosis, case: str, reasons: tuple[Reason, ...], against: WhyNot
) -> WhyDocument:
    """Return why a cause has its rank."""
    ranked = against.ranked
    return WhyDocument.model_validate(
        head(diagnosis, case)
        | {"cause": ranked.id, "rank": ranked.rank, "score_db": ranked.score_db, "reasons": reasons}
        | {name: getattr(against, name) for name in ("gap_db", "lifts", "together", "best_gap_db")}
    )


def versus_document(diagnosis: Diagnosis, case: str, found: Versus) -> VersusDocument:
    """Return one cause over another."""
    return VersusDocument.model_validate(
        head(diagnosis, case)
        | {name: getattr(found, name) for name in ("one", "other", "difference", "rows")}
        | {
            "deciding": len(found.deciding),
            "separating": tuple(
                SeparatingDocument(question=each.check.question.id, expected_db=each.expected_db)
                for each in found.separating
            ),
        }
    )
