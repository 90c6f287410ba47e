"""A diagnosis as data for other programs: `RankingDocument`, versioned, published as a JSON Schema."""

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from diagnose.diagnosis import Diagnosis
from diagnose.report.words import heading, verdict

VERSION: Literal[1] = 1


class _Document(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class LineDocument(_Document):
    """One line of a ledger. All lines of a cause add up to its score."""

    kind: Literal["prior", "evidence", "discount"]
    decibans: float
    text: str
    rule: str
    facts: tuple[str, ...]
    findings: tuple[str, ...]
    origin: tuple[str, ...]
    house: bool


class CauseDocument(_Document):
    """One cause at its rank."""

    id: str
    name: str
    rank: int
    score_db: float
    probability: float = Field(ge=0, le=1)
    house: bool
    lines: tuple[LineDocument, ...]


class FactDocument(_Document):
    """One known fact."""

    value: float | str
    said: str
    source: Literal["answer", "event", "journal", "measure", "plant"]


class RankingDocument(_Document):
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
        causes=tuple(
            CauseDocument(
                id=ranked.id,
                name=ranked.name,
                rank=ranked.rank,
                score_db=ranked.score_db,
                probability=ranked.probability,
                house=ranked.house,
                lines=tuple(
                    LineDocument(
                        kind=line.kind,
                        decibans=line.decibans,
                        text=line.text,
                        rule=line.rule,
                        facts=line.facts,
                        findings=line.findings,
                        origin=line.origin,
                        house=line.house,
                    )
                    for line in ranked.lines
                ),
            )
            for ranked in diagnosis.ranking.causes
        ),
        facts={
            name: FactDocument(value=fact.value, said=fact.said, source=fact.source)
            for name, fact in sorted(diagnosis.facts.items())
        },
        unanswered=tuple(question.id for question in diagnosis.unanswered),
        problems=problems,
    )
