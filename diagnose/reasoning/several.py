"""Several causes at once: what each probable one explains, what only one does, and what none does."""

from dataclasses import dataclass

from diagnose.language import _
from diagnose.ranking import PROBABLE, Line, RankedCause
from diagnose.reasoning.chain import chain
from diagnose.reasoning.known import Known
from diagnose.reasoning.why import answers_behind


@dataclass(frozen=True, slots=True)
class Sign:
    """A finding held or an answer given that speaks for some cause."""

    kind: str
    """finding or answer"""
    id: str
    text: str
    causes: tuple[str, ...]
    """Every cause it speaks for, in the order of the ranking."""


@dataclass(frozen=True, slots=True)
class Explains:
    """One probable cause, the signs that speak for it, and those that speak for no other probable cause."""

    cause: RankedCause
    signs: tuple[Sign, ...]
    alone: tuple[Sign, ...]


@dataclass(frozen=True, slots=True)
class Several:
    """What the probable causes explain between them."""

    probable: tuple[Explains, ...]
    unexplained: tuple[Sign, ...]
    """Signs that speak only for causes that are not probable."""
    silent: tuple[Sign, ...]
    """Answers that no rule made anything of, for or against."""


def several(known: Known) -> Several:
    """Return what each probable cause explains; a sign is whatever a line for a cause rests on."""
    for_whom: dict[tuple[str, str], list[str]] = {}
    used: set[str] = set()
    for ranked in known.ranking.causes:
        for line in ranked.lines:
            steps = chain(known.base, known.gathered.facts, known.firings, line)
            used.update(answers_behind(steps, known.gathered.facts))
            if line.decibans > 0:
                for key in _signs(known, line):
                    causes = for_whom.setdefault(key, [])
                    if ranked.id not in causes:
                        causes.append(ranked.id)
    signs = [
        Sign(kind, name, _text(known, kind, name), tuple(causes))
        for (kind, name), causes in sorted(for_whom.items())
    ]
    probable = [ranked for ranked in known.ranking.causes if ranked.probability >= PROBABLE]
    ids = {ranked.id for ranked in probable}
    return Several(
        tuple(
            Explains(
                ranked,
                tuple(sign for sign in signs if ranked.id in sign.causes),
                tuple(sign for sign in signs if ids.intersection(sign.causes) == {ranked.id}),
            )
            for ranked in probable
        ),
        tuple(sign for sign in signs if ids.isdisjoint(sign.causes)),
        tuple(
            Sign("answer", name, _text(known, "answer", name), ())
            for name, fact in known.gathered.facts.items()
            if fact.is_told and name not in used
        ),
    )


def _signs(known: Known, line: Line) -> list[tuple[str, str]]:
    """Return what a line rests on directly: findings, and answers that no finding stands between."""
    facts = known.gathered.facts
    answers = [name for name in line.facts if facts[name].is_told]
    return [*(("finding", name) for name in line.findings), *(("answer", name) for name in answers)]


def _text(known: Known, kind: str, name: str) -> str:
    if kind == "finding":
        return known.base.findings[name].text
    return _("{what} {value}").format(
        what=known.base.vocabulary[name].meaning, value=known.gathered.facts[name].said
    )
