"""A diagnosis as plain text: what the screens show, for terminals, pipes and screen readers."""

import re
import textwrap
from collections.abc import Iterable, Iterator

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, marked, ngettext, pgettext
from diagnose.ranking import RankedCause
from diagnose.report.words import cause_said, decibans, heading, percent, verdict, with_house
from diagnose.rulebase.rulebase import RuleBase

WIDTH = 79
CAUSES_WITH_REASONS = 3
_UNIT = re.compile(r"(?<=\d) (?=%|dB\b|°C|cm\b)")
_NO_SOURCE = (marked("common practice"), marked("from memory"))
_BESIDE = " " * 11  # below the text that hangs beside a weight
LINES_EACH = 5
OPEN_SHOWN = 5


def ranking_text(diagnosis: Diagnosis) -> str:
    """Return the ranking, the reasons of its first causes, and what was not known."""
    parts = [heading(diagnosis), *wrapped(verdict(diagnosis)), ""]
    parts += [rank_line(ranked) for ranked in diagnosis.ranking.causes]
    for ranked in diagnosis.ranking.causes[:CAUSES_WITH_REASONS]:
        why = _("Why {cause} is {place}:")
        why = why.format(cause=cause_said(ranked.name), place=ordinal(ranked.rank))
        parts += ["", *wrapped(why), *_reasons(ranked)]
    return "\n".join([*parts, "", *_not_known(diagnosis), "", *wrapped(_rules(diagnosis))])


def origin_named(origin: str) -> str:
    """Return an origin in short: a source's id, or the words that say that there is none."""
    return _(origin) if origin in _NO_SOURCE else origin


def origin_said_in(base: RuleBase, origin: str) -> str:
    """Return an origin in words: a source's author, year and title, or the words themselves."""
    source = base.sources.get(origin)
    return (
        f"{source.author} {source.year}".strip() + f", {source.title} ({origin})"
        if source
        else origin_named(origin)
    )


def wrapped(text: str, width: int = WIDTH) -> list[str]:
    """Return text broken into lines that fit 80 columns."""
    return hung("", text, width)


def rank_line(ranked: RankedCause) -> str:
    """Return a cause as one line: rank, name, probability, score."""
    numbers = f"{percent(ranked.probability):>6}  {decibans(ranked.score_db):>10}"
    return with_house(f"{ranked.rank:>3}  {ranked.name:<40} {numbers}", house=ranked.house)


def _reasons(ranked: RankedCause) -> Iterator[str]:
    lines = [line for line in ranked.lines if line.kind == "evidence"]
    for line in lines[:LINES_EACH]:
        yield from hung(f"{decibans(line.decibans):>9}  ", with_house(line.text, house=line.house))
    rest = len(lines) - LINES_EACH
    if not lines:
        yield from hung(_BESIDE, _("nothing known speaks for or against it"))
    elif rest > 0:
        text = _("and {count} more: {command}")
        yield from hung(_BESIDE, text.format(count=rest, command=f"diagnose why CASE {ranked.id}"))


def _not_known(diagnosis: Diagnosis) -> Iterator[str]:
    still_open = [question.text for question in diagnosis.unanswered]
    if not still_open:
        yield from wrapped(_("Every question that applies was answered."))
        return
    yield from wrapped(_("Not known:"))
    yield from bullet_list(still_open[:OPEN_SHOWN])
    more = len(still_open) - OPEN_SHOWN
    if more > 0:
        yield from bullet_list([_("and {count} more").format(count=more)])


def _rules(diagnosis: Diagnosis) -> str:
    standing = diagnosis.base.standing.values()
    files = len({place.file for place in standing if place.house})
    if not files:
        return _("Rules {hash}.").format(hash=diagnosis.base.hash)
    text = ngettext(
        "Rules {hash}, with {count} house file.", "Rules {hash}, with {count} house files.", files
    )
    return text.format(hash=diagnosis.base.hash, count=files)


def with_units(text: str) -> str:
    """Return text in which lines do not break between a number and its unit."""
    return _UNIT.sub("\N{NO-BREAK SPACE}", text)


def hung(start: str, text: str, width: int = WIDTH) -> list[str]:
    """Return wrapped text that hangs under its start."""
    lines = textwrap.wrap(with_units(text), width, initial_indent=start, subsequent_indent=" " * len(start))
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines] or [start.rstrip()]


def ordinal(rank: int) -> str:
    """Return a rank in words."""
    words = {
        1: pgettext("a place in the ranking", "first"),
        2: pgettext("a place in the ranking", "second"),
        3: pgettext("a place in the ranking", "third"),
    }
    return words.get(rank) or pgettext("a place in the ranking", "number {rank}").format(rank=rank)


def bullet_list(items: Iterable[str]) -> list[str]:
    """Return items as wrapped lines with a dash."""
    return [line for item in items for line in hung("- ", item)]
