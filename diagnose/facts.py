"""Case and measures -> flat facts, each with where it came from. A bad answer is left out and told."""

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from diagnose.case import AnswerValue, Case, Place
from diagnose.language import _, numeral, quoted
from diagnose.measures.leaves.consistency import inconsistencies
from diagnose.measures.measure import Measure, Value
from diagnose.measures.needs import PlantNeeds
from diagnose.measures.places import find_city
from diagnose.measures.registry import measure_all
from diagnose.problems import BadInputError, Problem, nearest, one_of, shown
from diagnose.rulebase.model import PlantProfile, Question
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.vocabulary import NO_PLANT, Term, plain_number


@dataclass(frozen=True, slots=True)
class Fact:
    """A known value: its name, how it is said, and what it came from."""

    name: str
    value: Value
    said: str
    source: Literal["answer", "event", "journal", "measure", "plant"]
    measure: Measure | None = None

    @property
    def is_told(self) -> bool:
        """Whether the grower told it: as an answer, as a dated event, or earlier, in the journal."""
        return self.source in ("answer", "event", "journal")


@dataclass(frozen=True, slots=True)
class Gathered:
    """All that is known of a case, and the answers that could not be used."""

    case: Case
    facts: Mapping[str, Fact]
    needs: PlantNeeds
    problems: tuple[Problem, ...]

    @property
    def values(self) -> dict[str, Value]:
        """Name -> value, as the engine takes them."""
        return {name: fact.value for name, fact in self.facts.items()}


def gather(case: Case, base: RuleBase) -> Gathered:
    """Return every fact that the case gives or lets us compute."""
    problems = list(inconsistencies(case))
    problems += _place_problems(case.place)
    known: dict[str, Fact] = {}
    for name, value, source in _answers(case, base, problems):
        known[name] = Fact(name, value, base.vocabulary[name].said(value), source)
    plant, needs = _plant(case, base, problems)
    for name, value in plant.items():
        if name in base.vocabulary:
            known[name] = Fact(name, value, base.vocabulary[name].said(value), "plant")
    measured = measure_all(case, {name: fact.value for name, fact in known.items()}, needs)
    for name, measure in measured.items():
        known.setdefault(
            name, Fact(name, measure.value, _said(measure, base.vocabulary[name]), "measure", measure)
        )
    return Gathered(case, known, needs, tuple(problems))


def told_if(
    gathered: Gathered, base: RuleBase, changes: Mapping[str, AnswerValue | None]
) -> dict[str, Value]:
    """Return the facts told (not measured) as `gather` would find them if these answers were others.

    None takes an answer back; what the journal or a dated event tells then counts again. Raises AnswerError if a
    question does not take its answer.
    """
    told = {name: fact.value for name, fact in gathered.facts.items() if fact.is_told}
    for name, answer in changes.items():
        question = base.questions[name]
        for fact in fact_names(question):
            told.pop(fact, None)
        if answer is not None:
            told.update(read_answer(question, answer, gathered.case.date))
        else:
            told.update(_told_besides(gathered.case, question))
    return told | {name: fact.value for name, fact in gathered.facts.items() if fact.source == "plant"}


def fact_names(question: Question) -> tuple[str, ...]:
    """Return the names of the facts that an answer to this question gives."""
    if question.kind == "several":
        return tuple(f"{question.id}.{choice.id}" for choice in question.choices)
    return (question.id,)


def _told_besides(case: Case, question: Question) -> list[tuple[str, Value]]:
    """Return the facts that a question has without an answer: from the journal, else from a dated event."""
    if question.id in case.from_journal:
        try:
            return read_answer(question, case.from_journal[question.id], case.date)
        except AnswerError:
            pass  # told when it was gathered
    date = case.latest(question.event) if question.event else None
    return [] if date is None else [(question.id, float(case.days_since(date)))]


def _place_problems(place: Place) -> tuple[Problem, ...]:
    if place.city is None or place.latitude is not None:
        return ()
    try:
        find_city(place.city, place.country)
    except BadInputError as error:
        return error.problems
    return ()


def _said(measure: Measure, term: Term) -> str:
    """Say a measure with its range, so that no number looks surer than it is."""
    if measure.low is None or measure.high is None or isinstance(measure.value, str):
        return term.said(measure.value)
    said, low, high = term.said(measure.value), plain_number(measure.low), plain_number(measure.high)
    return said if low == high else _("{value} ({low} to {high})").format(value=said, low=low, high=high)


def _answers(
    case: Case, base: RuleBase, problems: list[Problem]
) -> Iterator[tuple[str, Value, Literal["answer", "event", "journal"]]]:
    for question in base.questions.values():
        if question.id in case.answers:
            continue
        if question.event and (date := case.latest(question.event)) is not None:
            yield question.id, float(case.days_since(date)), "event"
    told: list[tuple[str, AnswerValue, Literal["answer", "journal"]]] = [
        (name, answer, "journal") for name, answer in case.from_journal.items() if name not in case.answers
    ]
    told += [(name, answer, "answer") for name, answer in case.answers.items()]
    for name, answer, source in told:
        asked = base.questions.get(name)
        if asked is None:
            found = _("an answer to {name}, which no question asks").format(name=quoted(name))
            problems.append(_problem(name, found, _("the id of a question"), nearest(name, base.questions)))
            continue
        try:
            for fact, value in read_answer(asked, answer, case.date):
                yield fact, value, source
        except AnswerError as error:
            problems.append(_problem(name, error.found, error.expected, error.mend))


class AnswerError(ValueError):
    """An answer that its question does not take."""

    def __init__(self, found: str, expected: str, mend: str = "") -> None:
        super().__init__(_("found {found}, expected {expected}").format(found=found, expected=expected))
        self.found, self.expected, self.mend = found, expected, mend


def read_answer(question: Question, answer: AnswerValue, today: dt.date) -> list[tuple[str, Value]]:
    """Return the facts (name, value) that an answer gives.

    Raises:
        AnswerError: the answer is not of the question's kind, not among its choices, or out of its bounds.

    """
    choices = {choice.id: choice.label for choice in question.choices}
    if question.kind == "yes_no":
        words = {True: "yes", False: "no", "yes": "yes", "no": "no"}
        if not isinstance(answer, bool | str) or answer not in words:
            raise AnswerError(shown(answer), _("yes or no"))
        return [(question.id, words[answer])]
    if question.kind == "choice":
        return [(question.id, _choice(answer, choices))]
    if question.kind == "several":
        if not isinstance(answer, tuple):
            such = f'["{next(iter(choices))}"]'
            raise AnswerError(shown(answer), _("a list of choices, such as {such}").format(such=such))
        chosen = {_choice(one, choices) for one in answer}
        return [(f"{question.id}.{choice}", "yes" if choice in chosen else "no") for choice in choices]
    if question.kind == "number":
        return [(question.id, _number(question, answer))]
    if question.kind == "date":
        return [(question.id, _days_ago(answer, today))]
    expected = _("no answer here; it is told under [{table}]").format(table=question.kind)
    raise AnswerError(shown(answer), expected)


def _choice(answer: object, choices: Mapping[str, str]) -> str:
    if not isinstance(answer, str) or answer not in choices:
        raise AnswerError(shown(answer), one_of(choices), nearest(str(answer), choices))
    return answer


def _number(question: Question, answer: AnswerValue) -> float:
    least, most = question.least or 0.0, question.most or 0.0
    if isinstance(answer, bool) or not isinstance(answer, int | float) or not least <= answer <= most:
        expected = _("a number from {least} to {most} {unit}").format(
            least=numeral(least, "g"), most=numeral(most, "g"), unit=question.unit
        )
        raise AnswerError(shown(answer), expected.rstrip())
    return float(answer)


def _days_ago(answer: AnswerValue, today: dt.date) -> float:
    """Dates and ISO dates as text are both taken (JSON knows no dates)."""
    date = answer
    if isinstance(date, str):
        try:
            date = dt.date.fromisoformat(date)
        except ValueError:
            raise AnswerError(shown(answer), _("a date such as {date}").format(date="2026-01-31")) from None
    if not isinstance(date, dt.date):
        raise AnswerError(shown(answer), _("a date such as {date}").format(date="2026-01-31"))
    if date > today:
        expected = _("a date not after the case's date, {date}").format(date=today.isoformat())
        raise AnswerError(date.isoformat(), expected)
    return float((today - date).days)


def _plant(case: Case, base: RuleBase, problems: list[Problem]) -> tuple[dict[str, str], PlantNeeds]:
    profile_id = case.plant.profile
    if profile_id is None:
        return {}, PlantNeeds()
    plant = base.plants.get(profile_id)
    if plant is None:
        found = _("the profile {name}, which no plant has").format(name=quoted(profile_id))
        mend = nearest(profile_id, base.plants) or _("see 'diagnose rules list plant'")
        expected = _("the id of a plant profile")
        problems.append(
            Problem(None, None, "plant, profile", found, expected, mend, path=("plant", "profile"))
        )
        return {}, PlantNeeds()
    return ({} if plant.id == NO_PLANT else _traits(plant)), plant.needs


def _traits(plant: PlantProfile) -> dict[str, str]:
    # a trait that the profile does not name stays unknown: nobody has said that the plant lacks it
    facts = {f"plant_{trait}": "yes" for trait in plant.traits}
    facts["plant_family"] = plant.family
    if plant.form != "any":
        facts["plant_form"] = plant.form
    if plant.water != "any":
        facts["plant_water"] = plant.water
    return facts


def _problem(name: str, found: str, expected: str, mend: str) -> Problem:
    return Problem(None, None, f"answers, {name}", found, expected, mend, path=("answers", name))
