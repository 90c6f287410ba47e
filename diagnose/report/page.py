"""A diagnosis and its plan -> one page: everything a reader elsewhere needs, in words, tables and pictures."""

import datetime as dt
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, date_short, ngettext, numeral
from diagnose.plan import Caution, Plan, Schedule, Step
from diagnose.ranking import Line, RankedCause
from diagnose.report.pictures import interval_bar, weight_bar
from diagnose.report.plan_text import parted, purpose, unasked_said
from diagnose.report.text import origin_named, origin_said_in
from diagnose.report.views import View, leaves_view, light_view
from diagnose.report.words import assumed_said, decibans, heading, likelihood, percent, verdict
from diagnose.rulebase.model import RECORD_KINDS, Question
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.strengths import probability

WEIGHT_OFF_DB, PRIOR_OFF_DB = 2.5, 5.0
"""How far a weight may be off, either way (half a band of Jeffreys 1961), and how common a cause is at all (a
factor of three): common practice, no source."""

_NINE_IN_TEN = 1.645 / math.sqrt(3)  # of sums of evenly spread errors, by the normal law

_REASONED = 3
_LEAST_SCALE_DB = 10.0  # so that slight hints alone do not look heavy


@dataclass(frozen=True, slots=True)
class Ranked:
    """A row of the ranking."""

    rank: int
    name: str
    percent: str
    span: str
    """The interval in which nine in ten such rankings would put it."""
    likelihood: str
    score: str
    picture: str
    house: bool


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of a ledger."""

    decibans: str
    text: str
    picture: str
    origin: tuple[str, ...]
    house: bool


@dataclass(frozen=True, slots=True)
class Reason:
    """One cause with its ledger."""

    name: str
    percent: str
    likelihood: str
    what: str
    looks: str
    settles: str
    entries: tuple[Entry, ...]
    score: str


@dataclass(frozen=True, slots=True)
class Told:
    """Answers under one heading of the questionnaire: (question, answer)."""

    subject: str
    answers: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Page:
    """All that a report shows."""

    title: str
    plant: str
    place: str
    verdict: str
    story: str
    told: tuple[Told, ...]
    ranking: tuple[Ranked, ...]
    reasons: tuple[Reason, ...]
    views: tuple[View, ...]
    """Leaves over time, light through the year: those that the case gives."""
    asked: tuple[str, ...]
    """Questions that the grower was asked and could not answer."""
    not_known: tuple[tuple[str, tuple[str, ...]], ...]
    """The other questions without an answer, under their headings."""
    open: int
    """How many those are."""
    unasked: tuple[str, ...]
    """Steps that hang on questions without an answer."""
    plan: Plan
    purpose: str
    parts: tuple[tuple[str, tuple[Step, ...]], ...]
    assumed: Mapping[str, tuple[str, ...]]
    """What each schedule of the plan assumes, by the schedule's id."""
    problems: tuple[str, ...]
    rules: str
    """Which rules were in use."""
    sources: tuple[tuple[str, str], ...]
    """Ids named on the page and what they stand for."""


def page(diagnosis: Diagnosis, plan: Plan, *, with_place: bool = False) -> Page:
    """Return the page; without `with_place` nothing on it tells where the plant stands."""
    case, ranking = diagnosis.case, diagnosis.ranking
    shown = ranking.causes[: max(_REASONED, len(plan.causes))]
    heaviest = max(_LEAST_SCALE_DB, *(abs(line.decibans) for cause in shown for line in cause.lines))
    views = (leaves_view(diagnosis), light_view(plan))
    not_known = tuple(_not_known(diagnosis))
    return Page(
        title=heading(diagnosis),
        plant=_plant(diagnosis),
        place=_place(diagnosis) if with_place else "",
        verdict=verdict(diagnosis),
        story=case.story,
        told=tuple(_told(diagnosis)),
        ranking=tuple(_ranked(cause, ranking.first.score_db) for cause in ranking.causes),
        reasons=tuple(_reason(diagnosis, cause, heaviest) for cause in shown),
        views=tuple(view for view in views if view is not None),
        asked=tuple(question.text for question in diagnosis.unanswered if question.id in case.not_known),
        not_known=not_known,
        open=sum(len(questions) for _subject, questions in not_known),
        unasked=tuple(unasked_said(diagnosis.base, one) for one in plan.unasked),
        plan=plan,
        purpose=purpose(plan),
        parts=tuple((title, tuple(steps)) for title, steps in parted(plan)),
        assumed={
            schedule.id: tuple(assumed_said(diagnosis.base, one) for one in schedule.assumed)
            for schedule in plan.schedules
        },
        problems=_problems(diagnosis, with_place=with_place),
        rules=_rules(diagnosis.base),
        sources=tuple(_sources(diagnosis, plan, shown)),
    )


def interval_db(cause: RankedCause) -> tuple[float, float]:
    """Return the scores that hold nine in ten rankings, were each weight off by so much, independently."""
    weights = len(cause.lines) - 1
    half = _NINE_IN_TEN * math.hypot(PRIOR_OFF_DB, WEIGHT_OFF_DB * math.sqrt(weights))
    return cause.score_db - half, cause.score_db + half


def _ranked(cause: RankedCause, first_db: float) -> Ranked:
    low, high = interval_db(cause)
    least, most = percent(probability(low)), percent(probability(high))
    return Ranked(
        cause.rank,
        cause.name,
        percent(cause.probability),
        least if least == most else _("{low} to {high}").format(low=least, high=most),
        likelihood(cause.probability),
        _signed(cause.score_db),
        interval_bar(cause.score_db, low, high, first_db),
        cause.house,
    )


def _reason(diagnosis: Diagnosis, cause: RankedCause, most_db: float) -> Reason:
    entry = diagnosis.base.causes[cause.id]
    return Reason(
        cause.name,
        percent(cause.probability),
        likelihood(cause.probability),
        entry.what,
        entry.looks,
        entry.settles,
        tuple(_entry(line, most_db) for line in cause.lines),
        _signed(cause.score_db),
    )


def _entry(line: Line, most_db: float) -> Entry:
    bar = weight_bar(line.decibans, most_db)
    return Entry(_signed(line.decibans), line.text, bar, tuple(map(origin_named, line.origin)), line.house)


def _signed(value_db: float) -> str:
    return decibans(value_db).replace("-", "\N{MINUS SIGN}")


def _told(diagnosis: Diagnosis) -> Iterator[Told]:
    """Yield the answers as they were understood, under their headings; records are shown elsewhere."""
    base, facts = diagnosis.base, diagnosis.facts
    for subject in base.subjects.values():
        answers = []
        for question in base.asked():
            if question.subject != subject.id or question.kind in RECORD_KINDS:
                continue
            if question.kind == "several":
                names = [
                    (choice.label, facts.get(f"{question.id}.{choice.id}")) for choice in question.choices
                ]
                if any(fact is not None for _label, fact in names):
                    yes = [label for label, fact in names if fact is not None and fact.value == "yes"]
                    answers.append((question.text, ", ".join(yes) or _("none of these")))
            elif question.id in facts and facts[question.id].is_told:
                answers.append((question.text, _said(diagnosis, question)))
        if answers:
            yield Told(subject.name, tuple(answers))


def _said(diagnosis: Diagnosis, question: Question) -> str:
    fact = diagnosis.facts[question.id]
    if question.kind == "date" and not isinstance(fact.value, str):
        return date_short(diagnosis.case.date - dt.timedelta(days=fact.value))
    return fact.said


def _not_known(diagnosis: Diagnosis) -> Iterator[tuple[str, tuple[str, ...]]]:
    open_ = [question for question in diagnosis.unanswered if question.id not in diagnosis.case.not_known]
    for subject in diagnosis.base.subjects.values():
        texts = tuple(question.text for question in open_ if question.subject == subject.id)
        if texts:
            yield subject.name, texts


def _plant(diagnosis: Diagnosis) -> str:
    plant = diagnosis.case.plant
    profile = diagnosis.base.plants.get(plant.profile or "")
    judged = (
        _("judged as {plant}").format(plant=profile.name)
        if profile
        else _("judged as a plant of unknown kind")
    )
    return ", ".join(part for part in (plant.name, plant.kind, judged) if part)


def _place(diagnosis: Diagnosis) -> str:
    place = diagnosis.case.place
    at = (
        (_("latitude {degrees}°"), place.latitude),
        (_("longitude {degrees}°"), place.longitude),
    )
    position = [text.format(degrees=numeral(value, "g")) for text, value in at if value is not None]
    return ", ".join(part for part in (place.label, place.city, place.country, *position) if part)


def _rules(base: RuleBase) -> str:
    files = sorted({place.file.rpartition("/")[2] for place in base.standing.values() if place.house})
    if not files:
        return _("Rule base {hash}.").format(hash=base.hash)
    text = ngettext(
        "Rule base {hash}, with house file {files}.",
        "Rule base {hash}, with house files {files}.",
        len(files),
    )
    return text.format(hash=base.hash, files=", ".join(files))


def _problems(diagnosis: Diagnosis, *, with_place: bool) -> tuple[str, ...]:
    """Return what could not be used; a fault in the place names the place."""
    about_place = ("place", "city", "latitude", "longitude", "label", "country", "elevation_m")
    return tuple(
        problem.sentence()
        for problem in diagnosis.problems
        if with_place or not any(part in about_place for part in (*problem.path, problem.key))
    )


def _sources(diagnosis: Diagnosis, plan: Plan, shown: tuple[RankedCause, ...]) -> Iterator[tuple[str, str]]:
    named = [origin for cause in shown for line in cause.lines for origin in line.origin]
    parts: tuple[Step | Schedule | Caution, ...] = (*plan.steps, *plan.schedules, *plan.cautions)
    named += [origin for part in parts for origin in part.origin]
    base = diagnosis.base
    for origin in sorted(set(named), key=_by_number):
        if origin in base.sources:
            yield origin, origin_said_in(base, origin).removesuffix(f" ({origin})")


def _by_number(origin: str) -> tuple[str, float, str]:
    letter, _, number = origin.partition("-")
    digits = "".join(character for character in number if character.isdigit())
    return letter, float(digits or 0), origin
