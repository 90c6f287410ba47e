"""What a picture shows, three times over: drawn, in a sentence, and as a table."""

import datetime as dt
from dataclasses import dataclass

from diagnose.case import Case, Event
from diagnose.diagnosis import Diagnosis
from diagnose.language import _, date_short, month_said, numeral, pgettext
from diagnose.measures.leaves.consistency import followed
from diagnose.measures.leaves.history import History, Stretch
from diagnose.measures.light import Range
from diagnose.measures.needs import LightNeed
from diagnose.plan import Plan
from diagnose.plan.light import amount, dli
from diagnose.report.pictures import leaves_picture, light_picture
from diagnose.report.pictures.leaves import Mark, Rise
from diagnose.report.words import event_said, which_said

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
        title=_("Leaves over time"),
        picture=leaves_picture(history, [mark for mark, _event in marked], rise, case.date, sentence),
        sentence=sentence,
        head=(
            pgettext("a date", "from"),
            pgettext("a date", "to"),
            _("standing then"),
            _("opened"),
            _("lost"),
            _("which went"),
        ),
        rows=tuple(
            (
                date_short(s.start),
                date_short(s.end),
                _count(s.present_after),
                _count(s.new),
                _count(s.lost),
                which_said(s.which),
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
        title=_("Light through the year"),
        picture=light_picture(light.year, light.situation.month, light.need, sentence),
        sentence=sentence,
        head=(_("month"), _("mol/m²/d expected"), _("low to high"), _("this is")),
        rows=tuple(
            (
                month_said(number),
                *amount(month),
                _enough(month, light.need),
            )
            for number, month in enumerate(light.year, start=1)
        ),
    )


def _event(event: Event) -> str:
    kind = f"{event_said(event.kind)}, {event.note}" if event.note else event_said(event.kind)
    return _("{date}: {event}").format(date=date_short(event.date), event=kind)


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
    text = (
        _(
            "From {start} to {end}, {new} opened and {lost} were lost; {before} stood at first and {now} at last."
        )
        if history.present
        else _("From {start} to {end}, {new} opened and {lost} were lost.")
    )
    words = text.format(
        start=date_short(first),
        end=date_short(last),
        new=new,
        lost=lost,
        before=history.present[0][1] if history.present else "",
        now=history.present[-1][1] if history.present else "",
    )
    if rise is None:
        return words
    after = diagnosis.facts.get("loss_change_after")
    text = (
        _("Losses rose about {day} (between {earliest} and {latest}).")
        if after is None or after.value == "none"
        else _("Losses rose about {day} (between {earliest} and {latest}, after: {event}).")
    )
    rose = text.format(
        day=date_short(rise.date),
        earliest=date_short(rise.earliest),
        latest=date_short(rise.latest),
        event=after.said if after else "",
    )
    return f"{words} {rose}"


def _light_sentence(now: Range, month: int, need: LightNeed | None) -> str:
    said = {"month": month_said(month + 1), "light": dli(now)}
    if need is None:
        text = _("In {month} the leaf gets {light} on a usual day; what this plant needs is not known.")
        return text.format(**said)
    text = _(
        "In {month} the leaf gets {light} on a usual day: {enough}. It lives on {least} and grows well from {good} on."
    )
    return text.format(
        **said,
        enough=_enough(now, need),
        least=numeral(need.least_dli_mol_m2_d, "g"),
        good=numeral(need.good_dli_mol_m2_d, "g"),
    )


def _enough(light: Range, need: LightNeed | None) -> str:
    if need is None:
        return ""
    if light.high < need.least_dli_mol_m2_d:
        return _("less than it lives on")
    if light.low < need.least_dli_mol_m2_d:
        return _("perhaps less than it lives on")
    return _("enough to live on") if light.expected < need.good_dli_mol_m2_d else _("enough to grow well")


def _count(number: int | None) -> str:
    return _("not told") if number is None else str(number)
