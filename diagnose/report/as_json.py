"""A diagnosis as data for other programs: `RankingDocument`, versioned, published as a JSON Schema."""

from typing import Literal

from pydantic import Field

from diagnose.diagnosis import Diagnosis
from diagnose.report.documents import Document, LineDocument
from diagnose.report.words import heading, verdict

VERSION: Literal[1] = 1


class CauseDocument(Document):
    """One cause at its rank."""

    id: str
    name: str
    rank: int
    score_db: float
    probability: float = Field(ge=0, le=1)
    house: bool
    lines: tuple[LineDocument, ...]


class FactDocument(Document):
    """One known fact."""

    value: float | str
    said: str
    source: Literal["answer", "event", "journal", "measure", "plant"]


class RankingDocument(Document):
    """The ranking of one case."""

    version: Literal[1] = VERSION
    case: str
    title: str
    rules: str
    """Hash of the rule base."""
    verdict: Literal["clear", "close", "none_likely", "too_little"]
    verdict_text: str
    too_close_to_call: tuple[str, ...]
    causes: tuple[CauseDocument, ...]
    facts: dict[str, FactDocument]
    unanswered: tuple[str, ...]
    problems: tuple[str, ...]


def ranking_document(diagnosis: Diagnosis, case: str, problems: tuple[str, ...]) -> RankingDocument:
    """Return a diagnosis as a document; `case` is the name it was asked for by."""
    return RankingDocument(
        case=case,
        title=heading(diagnosis),
        rules=diagnosis.base.hash,
        verdict=diagnosis.ranking.verdict,
        verdict_text=verdict(diagnosis),
        too_close_to_call=diagnosis.ranking.close,
        causes=tuple(CauseDocument.model_validate(ranked) for ranked in diagnosis.ranking.causes),
        facts={name: FactDocument.model_validate(fact) for name, fact in sorted(diagnosis.facts.items())},
        unanswered=tuple(question.id for question in diagnosis.unanswered),
        problems=problems,
    )
