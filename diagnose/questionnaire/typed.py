"""What was typed -> an answer of the question's kind, or one sentence on what would be taken."""

import datetime as dt

from diagnose.case import AnswerValue
from diagnose.facts import AnswerError, read_answer
from diagnose.language import _, numeral
from diagnose.problems import nearest
from diagnose.questionnaire.dates import read_date
from diagnose.questionnaire.units import System, read_number, shown_unit, to_shown
from diagnose.questionnaire.words import words
from diagnose.rulebase.model import Question

LETTERS = "abcdefghijklmnopqrstuvwxyz"


class TypedError(ValueError):
    """What was typed is no answer; its text says what would be."""


def choices_of(question: Question) -> list[tuple[str, str]]:
    """Return (id, label) of every answer that can be chosen; yes and no for a yes/no question."""
    if question.kind == "yes_no":
        return [("yes", _("yes")), ("no", _("no"))]
    return [(choice.id, choice.label) for choice in question.choices]


def read_typed(
    question: Question, text: str, today: dt.date, system: System = "metric", *, south: bool = False
) -> AnswerValue:
    """Return the answer that a typed text gives: a choice by number, letter, id or beginning; a number; a date.

    Raises:
        TypedError: the text is no answer to this question.

    """
    answer: AnswerValue
    if question.kind in ("choice", "yes_no"):
        answer = _choice(question, text)
    elif question.kind == "several":
        parts = text.replace(",", " ").split()
        is_none = text.strip().casefold() in words().none
        answer = () if is_none else tuple(_choice(question, part) for part in parts)
    elif question.kind == "number":
        number = read_number(text, question.unit, system)
        if number is None:
            raise TypedError(_("Please type {number}.").format(number=_bounds(question, system)))
        answer = round(number, 4)
    else:
        date = read_date(text, today, south=south)
        if date is None:
            raise TypedError(
                _('Please type a date, such as 2026-03-04, "3 weeks ago", "early May" or "last spring".')
            )
        answer = date
    try:
        read_answer(question, answer, today)
    except AnswerError as error:
        expected = _bounds(question, system) if question.kind == "number" else error.expected
        raise TypedError(
            _("That was {found}; please give {expected}.").format(found=error.found, expected=expected)
        ) from None
    return answer


def _bounds(question: Question, system: System) -> str:
    least, most = (
        numeral(to_shown(bound or 0.0, question.unit, system), "g")
        for bound in (question.least, question.most)
    )
    unit = shown_unit(question.unit, system)
    return _("a number from {least} to {most} {unit}").format(least=least, most=most, unit=unit).rstrip()


def _choice(question: Question, text: str) -> str:
    word = text.strip().casefold()
    choices = choices_of(question)
    ids = [choice_id for choice_id, _ in choices]
    if word.isdecimal() and 1 <= int(word) <= len(ids):
        return ids[int(word) - 1]
    if word in ids:
        return word
    if question.kind == "yes_no" and word in words().yes_no:
        return words().yes_no[word]
    begun = [
        one for one, label in choices if word and (label.casefold().startswith(word) or one.startswith(word))
    ]
    if len(begun) == 1:
        return begun[0]
    if len(word) == 1 and word in LETTERS[: len(ids)]:
        return ids[LETTERS.index(word)]
    hint = nearest(word, ids)
    text = _("Please choose 1 to {count} ({hint}).") if hint else _("Please choose 1 to {count}.")
    raise TypedError(text.format(count=len(ids), hint=hint))
