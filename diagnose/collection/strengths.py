"""What strength a rule would deserve by the settled cases of this journal: shown, never applied.

The strength of a rule is the likelihood ratio P(it fires | its cause) ÷ P(it fires | another cause), in decibans.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from diagnose.collection.chance import ratio_of_shares
from diagnose.rulebase.model import Evidence, Strength
from diagnose.rulebase.strengths import DECIBANS

LEAST_CASES = 10
"""Settled cases with the rule's cause, and as many with another, in which the rule's condition was known, before
anything is suggested (common practice, no source: with ten on each side the 95 % interval is 6 to 11 dB wide for shares
from 2 to 9 in 10, wider than the step from one strength word to the next)."""

Truth = Literal["true", "false", "unknown"]


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A rule's strength as the cases have it. `word` is None where no strength word lies within the interval."""

    rule: str
    cause: str
    speaks: str
    strength: Strength
    fired_with: int
    known_with: int
    fired_without: int
    known_without: int
    decibans: float
    """10·log10 of the median likelihood ratio; + speaks for the cause."""
    low: float
    high: float
    now: float
    """What the rule weighs now, with its sign."""
    word: str | None
    """For example "substantial, for"; the nearest to the median."""

    @property
    def agrees(self) -> bool:
        """Whether the rule's present strength lies within the interval."""
        return self.low <= self.now <= self.high


def suggestions(
    rules: Iterable[Evidence], cases: Iterable[tuple[str, Mapping[str, Truth]]]
) -> tuple[Suggestion, ...]:
    """Return the strength of every rule given that has cases enough, those first whose strength does not fit.

    `cases`: (what it turned out to be, rule -> whether its condition held), one for each settled case.
    """
    cases = tuple(cases)
    found = []
    for rule in rules:
        with_cause = [
            held[rule.id] for cause, held in cases if cause == rule.cause and held[rule.id] != "unknown"
        ]
        without = [
            held[rule.id] for cause, held in cases if cause != rule.cause and held[rule.id] != "unknown"
        ]
        if min(len(with_cause), len(without)) >= LEAST_CASES:
            found.append(_suggestion(rule, with_cause, without))
    return tuple(sorted(found, key=lambda one: (one.agrees, one.rule)))


def _suggestion(rule: Evidence, with_cause: list[Truth], without: list[Truth]) -> Suggestion:
    fired = with_cause.count("true"), without.count("true")
    limits = ratio_of_shares(fired[0], len(with_cause), fired[1], len(without))
    middle, low, high = (10 * math.log10(ratio) for ratio in limits)
    now = DECIBANS[rule.strength] * (1 if rule.speaks == "for" else -1)
    return Suggestion(
        rule.id, rule.cause, rule.speaks, rule.strength,
        fired[0], len(with_cause), fired[1], len(without), middle, low, high, now, _word(middle, low, high),
    )  # fmt: skip


def _word(middle: float, low: float, high: float) -> str | None:
    signed = {
        f"{word}, {side}": sign * db
        for word, db in DECIBANS.items()
        for side, sign in (("for", 1), ("against", -1))
    }
    within = {said: db for said, db in signed.items() if low <= db <= high}
    return min(within, key=lambda said: abs(within[said] - middle)) if within else None
