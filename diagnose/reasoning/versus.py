"""Why this over that: two ledgers side by side, and what decides between the two causes."""

from collections.abc import Iterable
from dataclasses import dataclass

from diagnose.ranking import Line, RankedCause
from diagnose.reasoning.known import Known
from diagnose.reasoning.next_checks import Check, NextChecks
from diagnose.rulebase.rulebase import RuleBase


@dataclass(frozen=True, slots=True)
class Row:
    """What one matter says to either cause: a line each, or a group of lines with its discount.

    `difference` is for the one over the other.
    """

    one: tuple[Line, ...]
    other: tuple[Line, ...]
    difference: float


@dataclass(frozen=True, slots=True)
class Separating:
    """An open question, and how far its answers are expected to move the two causes apart or together."""

    check: Check
    expected_db: float


@dataclass(frozen=True, slots=True)
class Versus:
    """One cause over another: the differences of all rows add up to the difference of the scores exactly."""

    one: RankedCause
    other: RankedCause
    rows: tuple[Row, ...]
    """Heaviest difference first."""
    deciding: tuple[Row, ...]
    """The fewest rows without which the lead would be gone."""
    separating: tuple[Separating, ...]
    """Open questions that tell the two apart, most per effort first."""

    @property
    def difference(self) -> float:
        """Decibans by which the one leads (negative: trails)."""
        return self.one.score_db - self.other.score_db


def versus(known: Known, one: str, other: str, checks: NextChecks) -> Versus:
    """Return two causes side by side. What is weighed as one stands in one row.

    So do groups of the same name, and lines that rest on the same facts and findings.
    """
    first, second = known.ranking.of(one), known.ranking.of(other)
    rows = sorted(
        _rows(known.base, first.lines, second.lines), key=lambda row: (-abs(row.difference), _rules(row))
    )
    return Versus(first, second, tuple(rows), _deciding(rows), _separating(one, other, checks))


def _rows(base: RuleBase, one: Iterable[Line], other: Iterable[Line]) -> list[Row]:
    sides: dict[tuple[object, ...], tuple[list[Line], list[Line]]] = {}
    for side, lines in enumerate((one, other)):
        for line in lines:
            sides.setdefault(_matter(base, line), ([], []))[side].append(line)
    return [Row(tuple(left), tuple(right), _sum(left) - _sum(right)) for left, right in sides.values()]


def _matter(base: RuleBase, line: Line) -> tuple[object, ...]:
    if line.kind == "prior":
        return (line.kind,)
    group = line.rule if line.kind == "discount" else base.evidence[line.rule].group
    return ("group", group) if group else ("rests on", line.facts, line.findings)


def _sum(lines: Iterable[Line]) -> float:
    return sum(line.decibans for line in lines)


def _rules(row: Row) -> tuple[str, ...]:
    return tuple(line.rule for line in (*row.one, *row.other))


def _deciding(rows: list[Row]) -> tuple[Row, ...]:
    lead = sum(row.difference for row in rows)
    sign = 1 if lead >= 0 else -1
    left, found = abs(lead), []
    for row in rows:
        if left <= 0:
            break
        if row.difference * sign > 0:
            left -= row.difference * sign
            found.append(row)
    return tuple(found)


def _separating(one: str, other: str, checks: NextChecks) -> tuple[Separating, ...]:
    found = []
    for check in checks.checks:
        expected = 0.0
        for outcome in check.outcomes:
            moved = {move.cause: move.decibans for move in outcome.moves}
            expected += outcome.chance * abs(moved.get(one, 0.0) - moved.get(other, 0.0))
        if expected > 0:
            found.append(Separating(check, expected))
    return tuple(
        sorted(found, key=lambda each: (-each.expected_db / each.check.minutes, each.check.question.id))
    )
