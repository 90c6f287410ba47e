"""If one answer were wrong: for each answer, the other answer that would cost the first cause most."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.case import AnswerValue
from diagnose.reasoning.known import answered, first_fact
from diagnose.reasoning.options import options
from diagnose.reasoning.suppose import Supposing
from diagnose.rulebase.model import Question


@dataclass(frozen=True, slots=True)
class Mistaken:
    """One answer, and the worst that could come of its being wrong."""

    question: Question
    instead: AnswerValue | None
    """The other answer that would cost the first cause most of its lead; None: no other costs it any."""
    first: str
    """The cause that would then come first."""
    lead_db: float
    """By how much today's first would then lead the best of the others; negative: it would be behind."""


def mistaken(supposing: Supposing) -> tuple[Mistaken, ...]:
    """Return every answer given with its worst alternative, in the order of files.

    Alternatives are those that `options` lists: every choice, and the numbers and dates that growers usually give.
    """
    case, now = supposing.known.gathered.case, supposing.now
    lead = _lead(now.scores, now.first)
    found = []
    for question in answered(supposing.known):
        held = supposing.known.gathered.values.get(first_fact(question))
        worst = Mistaken(question, None, now.first, lead)
        for option in options(question, case.date):
            after = supposing.suppose({question.id: option.answer})
            left = _lead(after.scores, now.first)
            if after.values.get(first_fact(question)) == held and question.kind != "several":
                continue
            if left < worst.lead_db:
                worst = Mistaken(question, option.answer, after.first, left)
        found.append(worst)
    return tuple(found)


def _lead(scores: Mapping[str, float], first: str) -> float:
    return scores[first] - max((score for cause, score in scores.items() if cause != first), default=0.0)
