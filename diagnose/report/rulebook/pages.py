"""Every entry of a rule base, and every measure, as a page."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from diagnose.measures.measure import Declaration
from diagnose.measures.registry import DECLARED
from diagnose.report.rulebook import reasoning, reference
from diagnose.report.rulebook.page import Page, Part
from diagnose.report.rulebook.uses import Uses
from diagnose.rulebase.rulebase import AnyEntry, RuleBase

_PARTS: dict[str, Callable[[RuleBase, Uses, Any], list[Part]]] = {
    "cause": reasoning.cause_parts,
    "finding": reasoning.finding_parts,
    "question": reasoning.question_parts,
    "measure": reasoning.measure_parts,
    "rule": reasoning.rule_parts,
    "evidence": reasoning.evidence_parts,
    "conflict": reasoning.conflict_parts,
    "plant": reference.plant_parts,
    "advice": reference.advice_parts,
    "caution": reference.caution_parts,
    "subject": reference.subject_parts,
    "source": reference.source_parts,
}
TABLES = tuple(_PARTS)
"""In the order of the book."""


def tables(base: RuleBase) -> dict[str, Mapping[str, AnyEntry]]:
    """Return the rule base's tables by the name they have in rule files."""
    return {
        "subject": base.subjects,
        "question": base.questions,
        "finding": base.findings,
        "rule": base.rules,
        "evidence": base.evidence,
        "conflict": base.conflicts,
        "cause": base.causes,
        "plant": base.plants,
        "advice": base.advice,
        "caution": base.cautions,
        "source": base.sources,
    }


class Pages:
    """Makes pages of one rule base."""

    def __init__(self, base: RuleBase) -> None:
        self._base = base
        self._uses = Uses(base, tables(base))

    def of(self, table: str, entry: AnyEntry) -> Page:
        """Return an entry's page."""
        standing = self._base.standing[table, entry.id]
        title = getattr(entry, "name", "") or getattr(entry, "title", "") or entry.id
        return Page(table, entry.id, title, standing.file, standing.house, self._parts(table, entry))

    def of_measure(self, entry: Declaration) -> Page:
        """Return a measure's page."""
        parts = self._parts("measure", entry)
        return Page("measure", entry.name, entry.name, "", house=False, parts=parts)

    def table(self, name: str) -> Iterator[Page]:
        """Yield the pages of one table, or of the measures."""
        if name == "measure":
            yield from map(self.of_measure, DECLARED)
        else:
            for entry in tables(self._base)[name].values():
                yield self.of(name, entry)

    def _parts(self, table: str, entry: AnyEntry | Declaration) -> tuple[Part, ...]:
        return tuple(_PARTS[table](self._base, self._uses, entry))
