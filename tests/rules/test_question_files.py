"""The shipped questions: complete, plain, and answering to what measures and conditions name."""

import importlib
import pkgutil
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import tomli

import diagnose.measures
from diagnose.rulebase.conditions import Condition
from diagnose.rulebase.model import Question, RuleFile, Subject

FOLDER = Path(__file__).parents[2] / "rules" / "questions"
FILES = sorted(FOLDER.glob("*.toml"))
RECORDS = {"place", "plant", "leaf_history", "leaves", "events", "date"}
"""What a measure may use that is no question (see `Declaration.inputs`)."""
ABBREVIATIONS = {"LED", "PPFD", "EC", "pH"}


def _read(path: Path) -> RuleFile:
    return RuleFile.model_validate(tomli.loads(path.read_text(encoding="utf-8")))


def _in_order() -> tuple[Question, ...]:
    """Return all questions as they are asked: by their subject's order, then by file."""
    files = [_read(path) for path in FILES]
    order = {subject.id: subject.order for file in files for subject in file.subject}
    questions = [question for file in files for question in file.question]
    return tuple(sorted(questions, key=lambda question: order[question.subject]))


QUESTIONS = _in_order()
BY_ID = {question.id: question for question in QUESTIONS}
SUBJECTS: tuple[Subject, ...] = tuple(subject for path in FILES for subject in _read(path).subject)

each_question = pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.id)


def _conditions(condition: Condition) -> Iterator[Condition]:
    """Yield every condition on a fact within a condition."""
    inner = (condition.all or ()) + (condition.any or ())
    if not inner:
        yield condition
    for part in inner:
        yield from _conditions(part)


def _words(condition: Condition) -> set[str]:
    """Return the words that a condition compares its fact with."""
    single = {word for word in (condition.is_, condition.is_not) if isinstance(word, str)}
    return single | set(condition.one_of or ())


def _answers(question: Question, part: str) -> set[str]:
    """Return the words that a question can give to its fact, or to the fact of one of its choices."""
    if part or question.kind == "yes_no":
        return {"yes", "no"}
    return {choice.id for choice in question.choices}


def test_ids_are_unique() -> None:
    ids = [question.id for path in FILES for question in _read(path).question]
    assert sorted(ids) == sorted(set(ids))
    assert sorted(subject.id for subject in SUBJECTS) == sorted({subject.id for subject in SUBJECTS})


def test_subjects_are_asked_in_order_and_each_has_questions() -> None:
    assert len({subject.order for subject in SUBJECTS}) == len(SUBJECTS)
    assert {question.subject for question in QUESTIONS} == {subject.id for subject in SUBJECTS}


@each_question
def test_text_is_one_short_question(question: Question) -> None:
    assert question.text.endswith("?")
    assert question.text.count("?") == 1
    assert len(question.text) <= 90


@each_question
def test_help_and_reason_are_sentences(question: Question) -> None:
    """Help is 1 to 4 sentences; the reason is one."""
    for text in (question.help, question.why):
        assert re.match(r"[A-Z0-9]", text), text
        assert text.endswith("."), text
    assert 1 <= len(re.findall(r"[.?!](?= [A-Z]|$)", question.help)) <= 4
    assert len(re.findall(r"[.?!](?= [A-Z]|$)", question.why)) == 1
    assert question.help != question.why


@each_question
def test_labels_fit_into_a_sentence(question: Question) -> None:
    labels = [choice.label for choice in question.choices]
    assert len(set(labels)) == len(labels)
    for label in labels:
        assert label[0].islower() or label.split()[0] in ABBREVIATIONS, label
        assert not label.endswith("."), label


@each_question
def test_shares_are_told_for_all_choices_or_none(question: Question) -> None:
    shares = [choice.share for choice in question.choices if choice.share is not None]
    assert len(shares) in (0, len(question.choices))
    if shares and question.kind == "choice":
        assert sum(shares) == pytest.approx(1)


@each_question
def test_numbers_and_dates_have_typical_answers_within_bounds(question: Question) -> None:
    if question.kind not in ("number", "date"):
        assert not question.typical
        return
    assert 3 <= len(question.typical) <= 5
    assert list(question.typical) == sorted(set(question.typical))
    least = 0 if question.least is None else question.least
    assert question.typical[0] >= least
    assert question.most is None or question.typical[-1] <= question.most


@each_question
def test_a_skip_names_an_earlier_question_and_its_possible_answers(question: Question) -> None:
    if question.ask_when is None:
        return
    assert question.skip_because[0].islower()
    assert not question.skip_because.endswith(".")
    for condition in _conditions(question.ask_when):
        assert condition.fact is not None
        name, _, part = condition.fact.partition(".")
        asked = BY_ID[name]
        assert QUESTIONS.index(asked) < QUESTIONS.index(question)
        assert (asked.kind == "several") == bool(part)
        assert not part or part in {choice.id for choice in asked.choices}
        assert _words(condition) <= _answers(asked, part)
        if not _words(condition):
            assert asked.kind in ("number", "date")


def _declared_inputs() -> list[tuple[str, str]]:
    """Return (measure, input) of every measure the program declares."""
    modules = pkgutil.walk_packages(diagnose.measures.__path__, "diagnose.measures.")
    declared = [getattr(importlib.import_module(module.name), "DECLARED", ()) for module in modules]
    return sorted({(entry.name, source) for group in declared for entry in group for source in entry.inputs})


def test_measures_only_use_what_is_asked() -> None:
    known = BY_ID.keys() | RECORDS
    assert [(measure, name) for measure, name in _declared_inputs() if name not in known] == []
