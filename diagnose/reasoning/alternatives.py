"""Other answers a question could have had: every choice, and one number for every stretch that rules tell apart."""

import datetime as dt
import itertools
from collections.abc import Mapping

from diagnose.case import AnswerValue
from diagnose.reasoning.known import first_fact
from diagnose.reasoning.suppose import Supposing, band
from diagnose.rulebase.model import Question

MOST_SPLITS = 24
"""Numbers tried between two others while a measure still jumps over more than one threshold (bounds the work)."""


def alternatives(supposing: Supposing, question: Question) -> tuple[AnswerValue, ...]:
    """Return the answers to try in place of the one given, which is not among them.

    Of `several` one choice more or one less. Of numbers and dates: every threshold of the question's own fact, a
    value between each two and beyond the ends, the typical ones, and more in between until no measure that depends
    on it jumps over more than one threshold from one to the next (as far as MOST_SPLITS goes).
    """
    known = supposing.known
    now = known.gathered.case.answers.get(question.id)
    value = known.gathered.values.get(first_fact(question))
    if question.kind == "choice":
        return tuple(choice.id for choice in question.choices if choice.id != value)
    if question.kind == "yes_no":
        return (value != "yes",)
    if question.kind == "several":
        held = [c.id for c in question.choices if known.gathered.values[f"{question.id}.{c.id}"] == "yes"]
        return tuple(_toggled(question, held, choice.id) for choice in question.choices)
    numbers = _numbers_to_try(supposing, question)
    return tuple(answer for answer in numbers if answer != now and _as_fact(supposing, answer) != value)


def _toggled(question: Question, held: list[str], toggled: str) -> tuple[str, ...]:
    return tuple(c.id for c in question.choices if (c.id in held) != (c.id == toggled))


def _numbers_to_try(supposing: Supposing, question: Question) -> tuple[AnswerValue, ...]:
    low, high = _bounds(question)
    own = [n for n in supposing.limits.get(question.id, ()) if low <= n <= high]
    start = sorted({low, high, *own, *(n for n in question.typical if low <= n <= high)})
    between = [(one + two) / 2 for one, two in itertools.pairwise(start)]
    points = sorted({_whole(question, n) for n in (*start, *between)})
    bands = {n: _bands(supposing, question, n) for n in points}
    for one, two in itertools.pairwise(points):
        bands |= _split(supposing, question, (one, two), bands)
    kept: dict[tuple[int, ...], float] = {}
    for number in sorted(bands, key=lambda n: (n not in question.typical, n)):
        kept.setdefault(bands[number], number)
    return tuple(_typed(supposing, question, number) for number in sorted(kept.values()))


def _split(
    supposing: Supposing,
    question: Question,
    ends: tuple[float, float],
    bands: Mapping[float, tuple[int, ...]],
) -> dict[float, tuple[int, ...]]:
    """Halve a stretch until its neighbours differ by one threshold at most."""
    found: dict[float, tuple[int, ...]] = {}
    waiting = [(ends[0], bands[ends[0]], ends[1], bands[ends[1]])]
    while waiting and len(found) < MOST_SPLITS:
        one, at_one, two, at_two = waiting.pop(0)
        middle = _whole(question, (one + two) / 2)
        steps = sum(abs(a - b) for a, b in zip(at_one, at_two, strict=True))
        if steps <= 2 or middle in (one, two):  # a threshold is two steps: up to it, and beyond it
            continue
        found[middle] = _bands(supposing, question, middle)
        waiting += [(one, at_one, middle, found[middle]), (middle, found[middle], two, at_two)]
    return found


def _bands(supposing: Supposing, question: Question, number: float) -> tuple[int, ...]:
    """Return for every fact with thresholds how many half-steps of them its value has passed; -1 if unknown."""
    values = supposing.values({question.id: _typed(supposing, question, number)})
    return tuple(band(values.get(name), numbers) for name, numbers in sorted(supposing.limits.items()))


def _bounds(question: Question) -> tuple[float, float]:
    if question.kind == "date":
        return 0.0, max(question.typical, default=0.0) * 2
    return question.least or 0.0, question.most or 0.0


def _whole(question: Question, number: float) -> float:
    """Days are whole; other numbers keep four digits, so that a suggested answer can be said."""
    return float(round(number)) if question.kind == "date" else float(f"{number:.4g}")


def _typed(supposing: Supposing, question: Question, number: float) -> AnswerValue:
    if question.kind == "date":
        return supposing.known.gathered.case.date - dt.timedelta(days=int(number))
    return number


def _as_fact(supposing: Supposing, answer: AnswerValue) -> object:
    if isinstance(answer, dt.date):
        return float((supposing.known.gathered.case.date - answer).days)
    return answer
