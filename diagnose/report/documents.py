"""What all documents for other programs share: frozen, read from records field by field, unknown fields refused."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict

from diagnose.diagnosis import Diagnosis

Id = Annotated[str, BeforeValidator(lambda entry: getattr(entry, "id", entry))]
"""The id of a question or a cause, whole entries being known by theirs."""


class Document(BaseModel):
    """A document or a part of one; its fields are read from the record of the same meaning."""

    model_config = ConfigDict(frozen=True, extra="forbid", from_attributes=True)


class Headed(Document):
    """A document about the reasons of one case."""

    version: Literal[1] = 1
    case: str
    rules: str
    """Hash of the rule base."""
    first: str
    """The cause that comes first."""


class LineDocument(Document):
    """One line of a ledger. All lines of a cause add up to its score."""

    kind: Literal["prior", "evidence", "discount"]
    decibans: float
    text: str
    rule: str
    facts: tuple[str, ...]
    findings: tuple[str, ...]
    origin: tuple[str, ...]
    house: bool


def head(diagnosis: Diagnosis, case: str) -> dict[str, Any]:
    """Return what a `Headed` document begins with; `case` is the name it was asked for by."""
    return {"case": case, "rules": diagnosis.base.hash, "first": diagnosis.ranking.first.id}
