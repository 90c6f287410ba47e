"""Answers put back into words, so that the grower sees what was understood."""

import datetime as dt

from diagnose.case import Case, LeafCount, Place
from diagnose.questionnaire.units import System, shown_unit, to_shown
from diagnose.rulebase.model import Question
from diagnose.rulebase.rulebase import RuleBase

NONE_OF_THESE = "none of these"


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
        return ", ".join(labels.get(one, one) for one in value) or NONE_OF_THESE
    if isinstance(value, dt.date):
        return date_said(value, case.date)
    if isinstance(value, bool):
        value = "yes" if value else "no"
    if isinstance(value, int | float):
        return number_said(float(value), question.unit, system)
    return labels.get(value, value) if value else ""


def number_said(value: float, unit: str, system: System = "metric") -> str:
    """Return a stored number in the unit it is shown in."""
    unit_shown = shown_unit(unit, system)
    return f"{to_shown(value, unit, system):.4g} {'days' if unit_shown == 'd' else unit_shown}".rstrip()


def date_said(date: dt.date, today: dt.date) -> str:
    """Return a date in full and how long ago that is."""
    return f"{date.day} {date:%B %Y}, {ago_said((today - date).days)}"


def ago_said(days: int) -> str:
    """Return a span of days before today in the unit people would use."""
    if days <= 1:
        return "today" if days == 0 else "yesterday"
    if days < 14:
        return f"{days} days ago"
    # mean lengths of the calendar's month and year
    for most, length, name in ((70, 7.0, "weeks"), (700, 30.44, "months")):
        if days < most:
            return f"{days / length:.0f} {name} ago"
    return f"{days / 365.25:.0f} years ago"


def place_said(place: Place) -> str:
    """Return where a plant stands: its label or town, else its coordinates."""
    if place.label or place.city:
        return ", ".join(part for part in (place.label, place.city, place.country) if part)
    if place.latitude is None:
        return ""
    north = f"{abs(place.latitude):.4g} {'north' if place.latitude >= 0 else 'south'}"
    if place.longitude is None:
        return north
    return f"{north}, {abs(place.longitude):.4g} {'east' if place.longitude >= 0 else 'west'}"


def leaves_said(counts: tuple[LeafCount, ...]) -> str:
    """Return what a leaf history comes to, in one sentence."""
    if not counts:
        return ""
    first, last = counts[0], counts[-1]
    if len(counts) == 1:
        return f"{first.present} leaves on {first.date.day} {first.date:%B %Y}"
    opened, lost = sum(c.new or 0 for c in counts), sum(c.lost or 0 for c in counts)
    days = (last.date - first.date).days
    return f"from {first.present} to {last.present} leaves in {days} days: {opened} opened, {lost} lost"
