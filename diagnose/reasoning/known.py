"""What reasons are given about: a case already diagnosed, as this layer sees it."""

from collections.abc import Mapping
from typing import Protocol

from diagnose.case import AnswerValue
from diagnose.engine import Firing
from diagnose.facts import Gathered
from diagnose.ranking import Ranking
from diagnose.rulebase.model import Question
from diagnose.rulebase.rulebase import RuleBase


class Known(Protocol):
    """A diagnosed case: its facts, what fired, and the ranking that came of it."""

    @property
    def base(self) -> RuleBase:
        """The rules in use."""

    @property
    def gathered(self) -> Gathered:
        """The case and its facts."""

    @property
    def firings(self) -> tuple[Firing, ...]:
        """The rules that fired."""

    @property
    def ranking(self) -> Ranking:
        """The causes in order."""

    @property
    def unanswered(self) -> tuple[Question, ...]:
        """Questions that apply and have no answer, in questionnaire order."""


def scores_of(known: Known) -> Mapping[str, float]:
    """Return cause -> score in decibans."""
    return {ranked.id: ranked.score_db for ranked in known.ranking.causes}


def answered(known: Known) -> tuple[Question, ...]:
    """Return the questions that the grower told something of, in the order of files."""
    return tuple(
        question
        for question in known.base.questions.values()
        if (fact := known.gathered.facts.get(first_fact(question))) and fact.is_told
    )


def answer_of(known: Known, question: Question) -> AnswerValue | None:
    """Return the answer given to a question, or told by the journal; a dated event alone answers by its date."""
    case = known.gathered.case
    for told in (case.answers, case.from_journal):
        if question.id in told:
            return told[question.id]
    return case.latest(question.event) if question.event else None


def first_fact(question: Question) -> str:
    """Return the name of a fact that is known whenever the question is answered."""
    return f"{question.id}.{question.choices[0].id}" if question.kind == "several" else question.id
