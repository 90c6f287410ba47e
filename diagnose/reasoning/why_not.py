"""Why not: what speaks against a cause, what is missing, and which answers could still lift it past the first."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from diagnose.case import AnswerValue
from diagnose.ranking import RankedCause
from diagnose.reasoning.next_checks import Check, NextChecks
from diagnose.reasoning.suppose import Supposing
from diagnose.reasoning.why import Reason, why
from diagnose.rulebase.model import Question


@dataclass(frozen=True, slots=True)
class Lift:
    """The answer to one open question that does most for a cause against the first."""

    question: Question
    answer: AnswerValue
    said: str
    decibans: float
    """What it adds to the cause."""
    gap_db: float
    """How far the cause would then lie behind the best of the others; negative: ahead of it."""
    chance: float
    """How probable that answer is for this plant, from what is known now."""

    @property
    def passes(self) -> bool:
        """Whether this answer alone would put the cause first."""
        return self.gap_db < 0


@dataclass(frozen=True, slots=True)
class WhyNot:
    """Why a cause is not first."""

    ranked: RankedCause
    gap_db: float
    """How far it lies behind the best of the others; negative if it leads."""
    against: tuple[Reason, ...]
    """Lines against it, the prior included if it is one."""
    lifts: tuple[Lift, ...]
    """Open questions that could raise it, most first."""
    together: tuple[Lift, ...]
    """The fewest answers found, taken one after the other, that put it first together; empty if none do."""
    best_gap_db: float
    """Where it would stand if every open question that can help were answered in its favour."""


def why_not(supposing: Supposing, cause: str, checks: NextChecks) -> WhyNot:
    """Return why a cause is not first. All answers were tried for real; the first cause has a gap below 0 (its lead).

    The lifts taken together are found greedily, the best single one first and each step computed anew: no fewer
    are known to do, but fewer may exist.
    """
    known, now = supposing.known, supposing.now
    ranked = known.ranking.of(cause)
    gap = _gap(now.scores, cause)
    lifts = tuple(
        sorted(
            (found for check in checks.checks if (found := _lift(supposing, cause, check)) is not None),
            key=lambda lift: (lift.gap_db, lift.question.id),
        )
    )
    helpful = [lift for lift in lifts if lift.gap_db < gap]
    together, best = _together(supposing, cause, helpful)
    return WhyNot(
        ranked,
        gap,
        tuple(reason for reason in why(known, cause) if reason.line.decibans < 0),
        lifts,
        together,
        best if helpful else gap,
    )


def _lift(supposing: Supposing, cause: str, check: Check) -> Lift | None:
    now = supposing.now
    found = []
    for outcome in check.outcomes:
        after = supposing.suppose({check.question.id: outcome.answer}).scores
        gain = after[cause] - now.scores[cause]
        if gain > 0:
            found.append(
                Lift(check.question, outcome.answer, outcome.said, gain, _gap(after, cause), outcome.chance)
            )
    return min(found, key=lambda lift: (lift.gap_db, lift.said), default=None)


def _together(supposing: Supposing, cause: str, lifts: list[Lift]) -> tuple[tuple[Lift, ...], float]:
    """Add one lift after the other until the cause is first; and the gap when all are added."""
    taken: list[Lift] = []
    passed: tuple[Lift, ...] = ()
    best = _gap(supposing.now.scores, cause)
    for lift in lifts:
        answers = {one.question.id: one.answer for one in (*taken, lift)}
        gap = _gap(supposing.suppose(answers).scores, cause)
        if gap >= best:  # beside those taken it brings nothing more
            continue
        best = gap
        taken.append(replace(lift, gap_db=gap))
        if gap < 0 and not passed:
            passed = tuple(taken)
    return passed, best


def _gap(scores: Mapping[str, float], cause: str) -> float:
    others = max((score for other, score in scores.items() if other != cause), default=0.0)
    return others - scores[cause]
