"""What each possible answer to a question would tell: which causes it would move, and how far."""

from dataclasses import dataclass

from diagnose.case import AnswerValue, Case
from diagnose.diagnosis import Diagnosis, Diagnostician
from diagnose.questionnaire.typed import choices_of
from diagnose.rulebase.model import Question

MOST_MOVED = 2
"""Causes named for each answer: the ones it would move most."""


@dataclass(frozen=True, slots=True)
class Telling:
    """One possible answer, and the causes it would move most as (name, decibans)."""

    label: str
    moved: tuple[tuple[str, float], ...]


def telling(diagnostician: Diagnostician, case: Case, question: Question) -> tuple[Telling, ...]:
    """Return what each choice of a question would tell; empty for a question without choices.

    Each choice is weighed against not knowing the answer.
    """
    if question.kind not in ("choice", "yes_no"):
        return ()
    answers = {name: value for name, value in case.answers.items() if name != question.id}
    without = diagnostician.diagnose(case.model_copy(update={"answers": answers}))
    told = []
    for choice, label in choices_of(question):
        supposed: dict[str, AnswerValue] = answers | {question.id: choice}
        told.append(
            Telling(
                label, _moved(without, diagnostician.diagnose(case.model_copy(update={"answers": supposed})))
            )
        )
    return tuple(told)


def _moved(before: Diagnosis, after: Diagnosis) -> tuple[tuple[str, float], ...]:
    moves = [
        (ranked.name, ranked.score_db - before.ranking.of(ranked.id).score_db)
        for ranked in after.ranking.causes
    ]
    moves.sort(key=lambda move: -abs(move[1]))
    return tuple(move for move in moves[:MOST_MOVED] if move[1])
