"""Why a cause has its rank: its ledger by weight, each line with its share and all that it rests on."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from diagnose.facts import Fact
from diagnose.ranking import Line
from diagnose.reasoning.chain import Step, chain
from diagnose.reasoning.known import Known


@dataclass(frozen=True, slots=True)
class Reason:
    """One line of a ledger, what part of all weight it is, and its chain down to the answers."""

    line: Line
    share: float
    """Its decibans, sign left aside, as a share of those of all lines."""
    steps: tuple[Step, ...]


def why(known: Known, cause: str) -> tuple[Reason, ...]:
    """Return a cause's reasons: the prior, then the heaviest first. Their decibans add up to its score exactly."""
    lines = known.ranking.of(cause).lines
    total = sum(abs(line.decibans) for line in lines) or 1.0
    return tuple(
        Reason(
            line,
            abs(line.decibans) / total,
            chain(known.base, known.gathered.facts, known.firings, line),
        )
        for line in lines
    )


def answers_behind(steps: Iterable[Step], facts: Mapping[str, Fact]) -> tuple[str, ...]:
    """Return the names of the facts told by the grower that steps rest on, sorted."""
    names: set[str] = set()
    waiting = list(steps)
    while waiting:
        step = waiting.pop()
        waiting += step.below
        if step.id in facts and facts[step.id].is_told:
            names.add(step.id)
    return tuple(sorted(names))
