"""Conflicts: strong evidence both ways on one cause, and answers that cannot both be right."""

from dataclasses import dataclass

from diagnose.ranking import Line, RankedCause, fill
from diagnose.reasoning.known import Known
from diagnose.rulebase.logic import truth
from diagnose.rulebase.resolve import conditions_in, listed
from diagnose.rulebase.strengths import DECIBANS

STRONG_DB = DECIBANS["substantial"]
"""Lines from this weight on, one each way, are a conflict."""


@dataclass(frozen=True, slots=True)
class BothWays:
    """One cause with strong lines for and against it."""

    cause: RankedCause
    lines_for: tuple[Line, ...]
    lines_against: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Answers that hardly go together, and what to look at again."""

    id: str
    text: str
    facts: tuple[str, ...]
    """The facts concerned."""
    origin: tuple[str, ...]
    house: bool


@dataclass(frozen=True, slots=True)
class Conflicts:
    """All that pulls two ways in a case."""

    both_ways: tuple[BothWays, ...]
    contradictions: tuple[Contradiction, ...]


def conflicts(known: Known) -> Conflicts:
    """Return the conflicts of a case: by rank of the cause, then by the rule files' order."""
    values = known.gathered.values
    findings = {rule.gives for firing in known.firings if (rule := known.base.rules.get(firing.rule))}
    return Conflicts(
        tuple(
            BothWays(ranked, heavy_for, heavy_against)
            for ranked in known.ranking.causes
            for heavy_for in [tuple(one for one in _evidence(ranked) if one.decibans >= STRONG_DB)]
            for heavy_against in [tuple(one for one in _evidence(ranked) if one.decibans <= -STRONG_DB)]
            if heavy_for and heavy_against
        ),
        tuple(
            Contradiction(
                entry.id,
                fill(entry.because, known.gathered.facts),
                tuple(
                    dict.fromkeys(
                        test.fact for _, test in conditions_in(entry.when, ()) if test.fact in values
                    )
                ),
                listed(entry.origin),
                known.base.is_house("conflict", entry.id),
            )
            for entry in known.base.conflicts.values()
            if truth(entry.when, values, findings) == "true"
        ),
    )


def _evidence(ranked: RankedCause) -> list[Line]:
    return [line for line in ranked.lines if line.kind == "evidence"]
