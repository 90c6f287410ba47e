"""A diagnosis as plain text: what the screens show, for terminals, pipes and screen readers."""

import textwrap
from collections.abc import Iterable, Iterator

from diagnose.diagnosis import Diagnosis
from diagnose.ranking import RankedCause
from diagnose.report.words import counted, decibans, heading, lower_first, percent, verdict
from diagnose.rulebase.rulebase import RuleBase

WIDTH = 79
CAUSES_WITH_REASONS = 3
LINES_EACH = 5


def ranking_text(diagnosis: Diagnosis) -> str:
    """Return the ranking, the reasons of its first causes, and what was not known."""
    parts = [heading(diagnosis), *wrapped(verdict(diagnosis)), ""]
    parts += [rank_line(ranked) for ranked in diagnosis.ranking.causes]
    for ranked in diagnosis.ranking.causes[:CAUSES_WITH_REASONS]:
        parts += ["", f"Why {lower_first(ranked.name)} is {ordinal(ranked.rank)}:", *_reasons(ranked)]
    parts += ["", *wrapped(_not_known(diagnosis)), f"Rules {diagnosis.base.hash}{_house(diagnosis)}."]
    return "\n".join(parts)


def origin_said_in(base: RuleBase, origin: str) -> str:
    """Return an origin in words: a source's author, year and title, or the words themselves."""
    source = base.sources.get(origin)
    return f"{source.author} {source.year}".strip() + f", {source.title} ({origin})" if source else origin


def wrapped(text: str, width: int = WIDTH) -> list[str]:
    """Return text broken into lines that fit 80 columns."""
    return textwrap.wrap(text, width) or [""]


def rank_line(ranked: RankedCause) -> str:
    """Return a cause as one line: rank, name, probability, score."""
    house = "  (house)" if ranked.house else ""
    numbers = f"{percent(ranked.probability):>6}  {decibans(ranked.score_db):>10}"
    return f"{ranked.rank:>3}  {ranked.name:<40} {numbers}{house}"


def _reasons(ranked: RankedCause) -> Iterator[str]:
    lines = [line for line in ranked.lines if line.kind == "evidence"]
    for line in lines[:LINES_EACH]:
        yield from hung(f"{decibans(line.decibans):>9}  ", line.text + (" (house)" if line.house else ""))
    rest = len(lines) - LINES_EACH
    if not lines:
        yield "           nothing known speaks for or against it"
    elif rest > 0:
        yield f"           and {rest} more: diagnose why CASE {ranked.id}"


def _not_known(diagnosis: Diagnosis) -> str:
    if not diagnosis.unanswered:
        return "Every question that applies was answered."
    ids = ", ".join(question.id for question in diagnosis.unanswered[:8])
    more = len(diagnosis.unanswered) - 8
    return f"Not known: {ids}" + (f" and {more} more." if more > 0 else ".")


def _house(diagnosis: Diagnosis) -> str:
    standing = diagnosis.base.standing.values()
    files = {place.file for place in standing if place.house}
    return f", with {counted(len(files), 'house file')}" if files else ""


def hung(start: str, text: str) -> list[str]:
    """Return wrapped text that hangs under its start."""
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start)) or [start]


def ordinal(rank: int) -> str:
    """Return a rank in words."""
    return {1: "first", 2: "second", 3: "third"}.get(rank, f"number {rank}")


def bullet_list(items: Iterable[str]) -> list[str]:
    """Return items as wrapped lines with a dash."""
    return [line for item in items for line in hung("- ", item)]
