"""Numbers and dates put into words, the same everywhere."""

import datetime as dt

from diagnose.diagnosis import Diagnosis
from diagnose.measures.measure import percentage

_LIKELIHOOD = (
    # likelihood scale of Mastrandrea et al. 2010, Guidance note for lead authors on uncertainties (IPCC);
    # from memory
    (0.99, "virtually certain"),
    (0.90, "very likely"),
    (0.66, "likely"),
    (0.33, "about as likely as not"),
    (0.10, "unlikely"),
    (0.01, "very unlikely"),
    (0.00, "exceptionally unlikely"),
)


def likelihood(probability: float) -> str:
    """Return the word for a probability."""
    return next(word for least, word in _LIKELIHOOD if probability >= least)


def percent(probability: float) -> str:
    """Return a probability as a whole percentage that never claims certainty."""
    if probability < 0.01:
        return "<1 %"
    if probability > 0.99:
        return ">99 %"
    return percentage(probability)


def decibans(value: float) -> str:
    """Return decibans with their sign: + speaks for the cause, - against it."""
    return f"{value:+.2f}".rstrip("0").rstrip(".") + " dB"


def heading(diagnosis: Diagnosis) -> str:
    """Return what the case is called and its date."""
    case = diagnosis.case
    name = case.title or case.plant.name or case.plant.kind or "Unnamed plant"
    return f"{name}, {date_said(case.date)}"


def date_said(date: dt.date) -> str:
    """Return a date as it is said, such as 8 November 2026."""
    return f"{date.day} {date:%B %Y}"  # %-d would do, but not on Windows


def day_in_short(date: dt.date | None) -> str:
    """Return a day of the coming months, such as Sun 8 Nov; nothing for no date."""
    return f"{date:%a} {date.day} {date:%b}" if date else ""


def counted(count: int, thing: str) -> str:
    """Return how many there are of a thing, such as 1 case, 2 cases, no cases."""
    return f"{count or 'no'} {thing}{'' if count == 1 else 's'}"


def verdict(diagnosis: Diagnosis) -> str:
    """Return in one or two sentences how far the ranking can be trusted."""
    ranking = diagnosis.ranking
    first = ranking.first
    name = first.name
    lower = lower_first(name)
    if ranking.verdict == "too_little":
        return "Too little is known to rank the causes: answer a few more questions."
    if ranking.verdict == "none_likely":
        return (
            f"No cause is likely from what is known; the first, {lower}, is {likelihood(first.probability)} "
            f"({percent(first.probability)})."
        )
    if ranking.verdict == "close":
        others = " and ".join(lower_first(ranking.of(cause).name) for cause in ranking.close[:3])
        return f"{name} comes first, but {others} {'is' if len(ranking.close) == 1 else 'are'} too close to call."
    return f"{name} is {likelihood(first.probability)} ({percent(first.probability)})."


def lower_first(text: str) -> str:
    """Return text as it stands inside a sentence."""
    return text[:1].lower() + text[1:]
