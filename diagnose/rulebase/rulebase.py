"""The rule base: every entry by id, where each stands, the vocabulary, and what had to be left out."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.problems import Problem
from diagnose.rulebase.model import (
    TABLES,
    Advice,
    Cause,
    Caution,
    Conflict,
    Evidence,
    Finding,
    PlantProfile,
    Question,
    Rule,
    Source,
    Subject,
)
from diagnose.rulebase.vocabulary import Term

AnyEntry = (
    Subject
    | Question
    | Finding
    | Rule
    | Evidence
    | Conflict
    | Cause
    | PlantProfile
    | Caution
    | Advice
    | Source
)


_PLURALS = {"rule": "rules", "evidence": "evidence", "advice": "advice"}
FIELDS: Mapping[str, str] = {table: _PLURALS.get(table, f"{table}s") for table in TABLES}
"""Table of a rule file -> the field of RuleBase that holds its entries."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Where an entry was read: file, its table and index in it, and whether it is a house rule."""

    file: str
    table: str
    index: int
    house: bool


@dataclass(frozen=True, slots=True, repr=False)
class RuleBase:
    """All entries by id, in the order of files. Built by `load`; never changed afterwards."""

    subjects: Mapping[str, Subject]
    questions: Mapping[str, Question]
    findings: Mapping[str, Finding]
    rules: Mapping[str, Rule]
    evidence: Mapping[str, Evidence]
    causes: Mapping[str, Cause]
    plants: Mapping[str, PlantProfile]
    cautions: Mapping[str, Caution]
    advice: Mapping[str, Advice]
    sources: Mapping[str, Source]
    vocabulary: Mapping[str, Term]
    standing: Mapping[tuple[str, str], Standing]
    """(table, id) -> where it was read."""
    hash: str
    """Of all files read; two rankings with the same hash were made by the same rules."""
    switched_off: frozenset[str] = frozenset()
    problems: tuple[Problem, ...] = ()
    """Faults of files that were left out."""
    files: tuple[str, ...] = ()
    texts: Mapping[str, str] = field(default_factory=dict)
    """File -> its text, to find the line of an entry."""
    conflicts: Mapping[str, Conflict] = field(default_factory=dict)

    def is_house(self, table: str, entry_id: str) -> bool:
        """Whether an entry is the grower's own."""
        return self.standing[table, entry_id].house

    def asked(self) -> tuple[Question, ...]:
        """Return the questions in the order of subjects, then of files."""
        order = {
            subject.id: (subject.order, position) for position, subject in enumerate(self.subjects.values())
        }
        return tuple(sorted(self.questions.values(), key=lambda question: order[question.subject]))
