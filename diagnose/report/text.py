"""A diagnosis as plain text: what the screens show, for terminals, pipes and screen readers."""

import textwrap
from collections.abc import Iterable, Iterator

from diagnose.diagnosis import Diagnosis
from diagnose.ranking import Line, RankedCause
from diagnose.reasoning import Step, chain
from diagnose.report.words import decibans, heading, lower_first, percent, verdict
from diagnose.rulebase.rulebase import RuleBase

WIDTH = 79
CAUSES_WITH_REASONS = 3
LINES_EACH = 5


def ranking_text(diagnosis: Diagnosis) -> str:
    """Return the ranking, the reasons of its first causes, and what was not known."""
    parts = [heading(diagnosis), *wrapped(verdict(diagnosis)), ""]
    parts += [_rank_line(ranked) for ranked in diagnosis.ranking.causes]
    for ranked in diagnosis.ranking.causes[:CAUSES_WITH_REASONS]:
        parts += ["", f"Why {lower_first(ranked.name)} is {_ordinal(ranked.rank)}:", *_reasons(ranked)]
    parts += ["", *wrapped(_not_known(diagnosis)), f"Rules {diagnosis.base.hash}{_house(diagnosis)}."]
    return "\n".join(parts)


def why_text(diagnosis: Diagnosis, cause: str) -> str:
    """Return one cause's whole ledger, and under each line the chain down to the answers."""
    ranked = diagnosis.ranking.of(cause)
    page = diagnosis.base.causes[cause]
    parts = [f"{ranked.name}: rank {ranked.rank} of {len(diagnosis.ranking.causes)}", _rank_line(ranked)]
    parts += [
        "",
        *wrapped(page.what),
        *wrapped(f"How it looks: {page.looks}"),
        *wrapped(f"What settles it: {page.settles}"),
    ]
    parts += ["", "The ledger (its lines add up to the score):"]
    for line in ranked.lines:
        parts += ["", *ledger_line(diagnosis, line)]
        for step in chain(diagnosis.base, diagnosis.facts, diagnosis.firings, line):
            parts += step_lines(step, "    ")
    parts += ["", f"{decibans(ranked.score_db):>9}  in all: {percent(ranked.probability)}"]
    return "\n".join(parts)


def ledger_line(diagnosis: Diagnosis, line: Line) -> list[str]:
    """Return a ledger's line: decibans, sentence, rule and origin."""
    origin = "; ".join(origin_said_in(diagnosis.base, one) for one in line.origin)
    house = "house, " if line.house else ""
    return [
        *_hung(f"{decibans(line.decibans):>9}  ", line.text),
        *_hung(" " * 11, f"[{house}{line.kind} {line.rule}; {origin}]"),
    ]


def origin_said_in(base: RuleBase, origin: str) -> str:
    """Return an origin in words: a source's author, year and title, or the words themselves."""
    source = base.sources.get(origin)
    return f"{source.author} {source.year}".strip() + f", {source.title} ({origin})" if source else origin


def step_lines(step: Step, indent: str) -> list[str]:
    """Return a step of a chain and all below it, each level further in."""
    lines = _hung(f"{indent}- ", step.text)
    for below in step.below:
        lines += step_lines(below, indent + "  ")
    return lines


def wrapped(text: str, width: int = WIDTH) -> list[str]:
    """Return text broken into lines that fit 80 columns."""
    return textwrap.wrap(text, width) or [""]


def _rank_line(ranked: RankedCause) -> str:
    house = "  (house)" if ranked.house else ""
    numbers = f"{percent(ranked.probability):>6}  {decibans(ranked.score_db):>10}"
    return f"{ranked.rank:>3}  {ranked.name:<40} {numbers}{house}"


def _reasons(ranked: RankedCause) -> Iterator[str]:
    lines = [line for line in ranked.lines if line.kind == "evidence"]
    for line in lines[:LINES_EACH]:
        yield from _hung(f"{decibans(line.decibans):>9}  ", line.text + (" (house)" if line.house else ""))
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
    return f", with {len(files)} house file{'s' if len(files) > 1 else ''}" if files else ""


def _hung(start: str, text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start)) or [start]


def _ordinal(rank: int) -> str:
    return {1: "first", 2: "second", 3: "third"}.get(rank, f"number {rank}")


def bullet_list(items: Iterable[str]) -> list[str]:
    """Return items as wrapped lines with a dash."""
    return [line for item in items for line in _hung("- ", item)]
