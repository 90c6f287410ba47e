"""Answers put back into words, so that the grower sees what was understood."""

import datetime as dt

from diagnose import language
from diagnose.case import Case, LeafCount, Place
from diagnose.language import _, marked, ngettext, numeral
from diagnose.questionnaire.units import System, shown_unit, to_shown
from diagnose.rulebase.model import Question
from diagnose.rulebase.rulebase import RuleBase

NONE_OF_THESE = marked("none of these")


def answer_said(case: Case, base: RuleBase, question: Question, system: System = "metric") -> str:
    """Return the case's answer to a question in words; an empty string if it has none."""
    if question.kind == "plant_profile":
        profile = case.plant.profile or ""
        return base.plants[profile].name if profile in base.plants else profile
    if question.kind == "place":
        return place_said(case.place)
    if question.kind == "leaf_history":
        return leaves_said(case.leaf_history)
    return _value_said(case, question, system)


def _value_said(case: Case, question: Question, system: System) -> str:
    value = case.answers.get(question.id)
    if question.event and value is None:
        value = case.latest(question.event)
    labels = {choice.id: choice.label for choice in question.choices}
    if isinstance(value, tuple):
        return ", ".join(labels.get(one, one) for one in value) or _(NONE_OF_THESE)
    if isinstance(value, dt.date):
        return date_said(value, case.date)
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, int | float):
        return number_said(float(value), question.unit, system)
    return labels.get(value, value) if value else ""


def number_said(value: float, unit: str, system: System = "metric") -> str:
    """Return a stored number in the unit it is shown in."""
    return f"{numeral(to_shown(value, unit, system), '.4g')} {shown_unit(unit, system)}".rstrip()


def date_said(date: dt.date, today: dt.date) -> str:
    """Return a date in full and how long ago that is."""
    return _("{date}, {ago}").format(date=language.date_said(date), ago=ago_said((today - date).days))


def ago_said(days: int) -> str:
    """Return a span of days before today in the unit people would use."""
    if days <= 1:
        return _("today") if days == 0 else _("yesterday")
    if days < 14:
        return _("{count} days ago").format(count=days)
    # mean lengths of the calendar's month and year
    for most, length, text in ((70, 7.0, _("{count} weeks ago")), (700, 30.44, _("{count} months ago"))):
        if days < most:
            return text.format(count=round(days / length))
    return _("{count} years ago").format(count=round(days / 365.25))


def place_said(place: Place) -> str:
    """Return where a plant stands: its label or town, else its coordinates."""
    if place.label or place.city:
        return ", ".join(part for part in (place.label, place.city, place.country) if part)
    if place.latitude is None:
        return ""
    north = _("{degrees} north") if place.latitude >= 0 else _("{degrees} south")
    said = north.format(degrees=numeral(abs(place.latitude), ".4g"))
    if place.longitude is None:
        return said
    east = _("{degrees} east") if place.longitude >= 0 else _("{degrees} west")
    return f"{said}, {east.format(degrees=numeral(abs(place.longitude), '.4g'))}"


def leaves_said(counts: tuple[LeafCount, ...]) -> str:
    """Return what a leaf history comes to, in one sentence."""
    if not counts:
        return ""
    first, last = counts[0], counts[-1]
    if len(counts) == 1:
        return ngettext("{count} leaf on {date}", "{count} leaves on {date}", first.present).format(
            count=first.present, date=language.date_said(first.date)
        )
    opened, lost = sum(c.new or 0 for c in counts), sum(c.lost or 0 for c in counts)
    days = (last.date - first.date).days
    return ngettext(
        "from {first} to {last} leaves in {days} day: {opened} opened, {lost} lost",
        "from {first} to {last} leaves in {days} days: {opened} opened, {lost} lost",
        days,
    ).format(first=first.present, last=last.present, days=days, opened=opened, lost=lost)
