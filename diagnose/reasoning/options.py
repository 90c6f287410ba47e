"""The answers a question may get, and how often growers give each."""

import datetime as dt
import math
from dataclasses import dataclass

from diagnose.case import AnswerValue
from diagnose.language import _, and_listed, ngettext
from diagnose.rulebase.model import Question
from diagnose.rulebase.vocabulary import Term, plain_number


@dataclass(frozen=True, slots=True)
class Option:
    """One possible answer, how it is said, and the share of growers who give it (all shares add up to 1)."""

    answer: AnswerValue
    said: str
    share: float


def options(question: Question, today: dt.date) -> tuple[Option, ...]:
    """Return the answers to try; none for a place, a plant or a leaf history, which have no list of answers.

    Choices by their `share`, yes by `share_yes`, numbers and dates by their `typical` values, all equally often.
    Of `several`: none, or any one alone; each choice's share is taken as its own, whatever else is chosen.
    """
    if question.kind == "choice":
        told = [choice.share or 0.0 for choice in question.choices]
        untold = (1 - sum(told)) / max(1, told.count(0.0))
        raw = [
            Option(choice.id, choice.label, choice.share or max(untold, 0.01)) for choice in question.choices
        ]
    elif question.kind == "yes_no":
        raw = [Option(True, _("yes"), question.share_yes), Option(False, _("no"), 1 - question.share_yes)]
    elif question.kind == "several":
        raw = _several(question)
    elif question.kind in ("number", "date"):
        raw = [
            Option(_typed(question, value, today), said(question, value), 1.0) for value in question.typical
        ]
    else:
        return ()
    total = math.fsum(option.share for option in raw)
    return tuple(Option(option.answer, option.said, option.share / total) for option in raw)


def said(question: Question, value: float) -> str:
    """Return a number (days ago for a date) as it is said."""
    if question.kind == "date":
        return ngettext("{count} day ago", "{count} days ago", value).format(count=plain_number(value))
    return Term(question.id, "question", question.text, question.unit).said(value)


def answer_said(question: Question, answer: AnswerValue | None, today: dt.date) -> str:
    """Return an answer as it is said."""
    if answer is None:
        return _("not known")
    if isinstance(answer, bool):
        return _("yes") if answer else _("no")
    if isinstance(answer, dt.date):
        return said(question, float((today - answer).days))
    labels = {choice.id: choice.label for choice in question.choices}
    if isinstance(answer, tuple):
        return and_listed([labels.get(one, one) for one in answer]) or _("none of these")
    if isinstance(answer, str):
        return labels.get(answer, answer)
    return said(question, answer)


def _several(question: Question) -> list[Option]:
    shares = [choice.share or 0.5 for choice in question.choices]
    none = math.prod(1 - share for share in shares if share < 1)
    alone = [
        Option((choice.id,), choice.label, none * share / (1 - min(share, 0.99)))
        for choice, share in zip(question.choices, shares, strict=True)
    ]
    return [Option((), _("none of these"), none), *alone]


def _typed(question: Question, value: float, today: dt.date) -> AnswerValue:
    return today - dt.timedelta(days=int(value)) if question.kind == "date" else value
