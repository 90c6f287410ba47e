"""Every question of a case with its state: answered, not known, open, or skipped and why."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from diagnose.case import Case
from diagnose.diagnosis import Diagnosis
from diagnose.facts import AnswerError, read_answer
from diagnose.measures.measure import Value
from diagnose.rulebase.logic import truth
from diagnose.rulebase.model import RECORD_KINDS, Question
from diagnose.rulebase.rulebase import RuleBase

State = Literal["answered", "not known", "open", "skipped"]


@dataclass(frozen=True, slots=True)
class Item:
    """One question and how it stands in the case."""

    question: Question
    state: State


def outline(case: Case, diagnosis: Diagnosis) -> tuple[Item, ...]:
    """Return all questions in order, each with its state.

    Answers count as the case has them now; measures and findings as the diagnosis has them, which may be of the
    case a moment ago. So the next question need not wait for the ranking.
    """
    base = diagnosis.base
    told = answered_values(case, base)
    concluded = {n: fact.value for n, fact in diagnosis.facts.items() if fact.source in ("measure", "plant")}
    findings = {rule.gives for firing in diagnosis.firings if (rule := base.rules.get(firing.rule))}
    values = concluded | told
    return tuple(Item(question, _state(question, case, values, told, findings)) for question in base.asked())


def answered_values(case: Case, base: RuleBase) -> dict[str, Value]:
    """Return the facts that answers and dated events give; answers that cannot be used give none."""
    told: dict[str, Value] = {}
    for question in base.questions.values():
        if question.id in case.answers:
            try:
                told.update(read_answer(question, case.answers[question.id], case.date))
            except AnswerError:
                continue
        elif question.event and (date := case.latest(question.event)) is not None:
            told[question.id] = float(case.days_since(date))
    return told


def newly_skipped(before: Sequence[Item], after: Sequence[Item]) -> tuple[tuple[int, str], ...]:
    """Return (how many, why) for the open questions that a change made needless."""
    was_open = {item.question.id for item in before if item.state == "open"}
    reasons = Counter(
        item.question.skip_because
        for item in after
        if item.state == "skipped" and item.question.id in was_open
    )
    return tuple((count, reason) for reason, count in reasons.items())


def _state(
    question: Question, case: Case, values: Mapping[str, Value], told: Mapping[str, Value], findings: set[str]
) -> State:
    if question.ask_when is not None and truth(question.ask_when, values, findings) == "false":
        return "skipped"
    if question.id in case.not_known:
        return "not known"
    return "answered" if _has_answer(question, case, told) else "open"


def _has_answer(question: Question, case: Case, told: Mapping[str, Value]) -> bool:
    if question.kind in RECORD_KINDS:
        return bool(
            {
                "leaf_history": case.leaf_history or case.leaves,
                "place": case.place.latitude is not None or case.place.city,
                "plant_profile": case.plant.profile,
            }[question.kind]
        )
    return (f"{question.id}.{question.choices[0].id}" if question.kind == "several" else question.id) in told
