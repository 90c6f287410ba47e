"""What a picture shows, three times over: drawn, in a sentence, and as a table."""

import datetime as dt
from dataclasses import dataclass

from diagnose.case import Case, Event
from diagnose.diagnosis import Diagnosis
from diagnose.measures.leaves.consistency import followed
from diagnose.measures.leaves.history import History, Stretch
from diagnose.measures.light import MONTHS, Range
from diagnose.measures.needs import LightNeed
from diagnose.plan import Plan
from diagnose.plan.light import amount, dli
from diagnose.report.pictures import leaves_picture, light_picture
from diagnose.report.pictures.leaves import Mark, Rise

MOST_ROWS = 30
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class View:
    """A picture with its title, its sentence and its table."""

    title: str
    picture: str
    sentence: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    key: tuple[tuple[str, str], ...] = ()
    """Letters in the picture and what they stand for."""


def leaves_view(diagnosis: Diagnosis) -> View | None:
    """Return the leaf history, or None where there are no two counts."""
    case = diagnosis.case
    history = followed(case)
    if not history.stretches:
        return None
    marked = marked_events(case, history)
    rise = rise_of_losses(diagnosis)
    sentence = _leaves_sentence(diagnosis, history, rise)
    return View(
        title="Leaves over time",
        picture=leaves_picture(history, [mark for mark, _ in marked], rise, case.date, sentence),
        sentence=sentence,
        head=("from", "to", "standing then", "opened", "lost", "which went"),
        rows=tuple(
            (
                _day(s.start),
                _day(s.end),
                _count(s.present_after),
                _count(s.new),
                _count(s.lost),
                s.which or "",
            )
            for s in _told_stretches(history)[-MOST_ROWS:]
        ),
        key=tuple((mark.letter, _event(event)) for mark, event in marked),
    )


def marked_events(case: Case, history: History) -> list[tuple[Mark, Event]]:
    """Return the events that belong in a picture of the history, up to two months before it, each with its letter."""
    start = history.stretches[0].start - dt.timedelta(days=60)
    events = [
        event for event in sorted(case.events, key=lambda e: e.date) if start <= event.date <= case.date
    ]
    return [(Mark(letter, event.date), event) for letter, event in zip(_LETTERS, events, strict=False)]


def light_view(plan: Plan) -> View | None:
    """Return the light through the year, or None where it can't be told."""
    light = plan.light
    if light is None or light.year is None:
        return None
    sentence = _light_sentence(light.year[light.situation.month], light.situation.month, light.need)
    return View(
        title="Light through the year",
        picture=light_picture(light.year, light.situation.month, light.need, sentence),
        sentence=sentence,
        head=("month", "mol/m²/d expected", "low to high", "this is"),
        rows=tuple(
            (
                name,
                *amount(month),
                _enough(month, light.need),
            )
            for name, month in zip(MONTHS, light.year, strict=True)
        ),
    )


def _event(event: Event) -> str:
    note = f", {event.note}" if event.note else ""
    return f"{_day(event.date)}: {event.kind.replace('_', ' ')}{note}"


def _told_stretches(history: History) -> list[Stretch]:
    """Leaves followed one by one give a stretch a day; only days on which something happened are told."""
    if history.source == "leaf_history":
        return list(history.stretches)
    return [stretch for stretch in history.stretches if stretch.new or stretch.lost]


def rise_of_losses(diagnosis: Diagnosis) -> Rise | None:
    """Return when losses rose; None if they did not, or it can't be told."""
    fact = diagnosis.facts.get("loss_change_days_ago")
    if fact is None or fact.measure is None or isinstance(fact.value, str):
        return None
    measure = fact.measure

    def on(days: float | None) -> dt.date:
        return diagnosis.case.date - dt.timedelta(days=float(fact.value) if days is None else days)

    return Rise(on(None), on(measure.high), on(measure.low))


def _leaves_sentence(diagnosis: Diagnosis, history: History, rise: Rise | None) -> str:
    first, last = history.stretches[0].start, history.stretches[-1].end
    new = sum(s.new or 0 for s in history.stretches)
    lost = sum(s.lost or 0 for s in history.stretches)
    words = f"From {_day(first)} to {_day(last)}, {new} opened and {lost} were lost"
    if history.present:
        words += f"; {history.present[0][1]} stood at first and {history.present[-1][1]} at last"
    words += "."
    if rise is not None:
        after = diagnosis.facts.get("loss_change_after")
        came = f", after: {after.said}" if after is not None and after.value != "none" else ""
        words += f" Losses rose about {_day(rise.date)} (between {_day(rise.earliest)} and {_day(rise.latest)}{came})."
    return words


def _light_sentence(now: Range, month: int, need: LightNeed | None) -> str:
    words = f"In {MONTHS[month]} the leaf gets {dli(now)} on a usual day"
    if need is None:
        return words + "; what this plant needs is not known."
    return (
        f"{words}: {_enough(now, need)}. It lives on {need.least_dli_mol_m2_d:g} and grows well from "
        f"{need.good_dli_mol_m2_d:g} on."
    )


def _enough(light: Range, need: LightNeed | None) -> str:
    if need is None:
        return ""
    if light.high < need.least_dli_mol_m2_d:
        return "less than it lives on"
    if light.low < need.least_dli_mol_m2_d:
        return "perhaps less than it lives on"
    return "enough to live on" if light.expected < need.good_dli_mol_m2_d else "enough to grow well"


def _day(date: dt.date) -> str:
    return f"{date.day} {date:%b %Y}"


def _count(number: int | None) -> str:
    return "not told" if number is None else str(number)
