"""Pairs of rules: those that say the same, and those that say the opposite on the same or a narrower condition."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from diagnose.language import _, marked
from diagnose.problems import Problem
from diagnose.rulebase.check.entries import Side, opposite, place, problem, sides
from diagnose.rulebase.check.values import Way, ways, within
from diagnose.rulebase.rulebase import RuleBase

_Names = frozenset[str]
_SAME = {
    "for": marked("evidence for {cause}, against which {other} speaks on the same condition"),
    "against": marked("evidence against {cause}, for which {other} speaks on the same condition"),
}
_WIDER = {
    "for": marked("evidence for {cause}, against which {other} speaks, which is wider"),
    "against": marked("evidence against {cause}, for which {other} speaks, which is wider"),
}


@dataclass(frozen=True, slots=True)
class _Known:
    """A side and all the ways in which it comes to be said."""

    side: Side
    ways: frozenset[Way]


def same_or_opposite(base: RuleBase) -> Iterator[Problem]:
    """Yield rules that repeat or contradict another one; of two alike the later is told."""
    known = [_Known(side, all_) for side in sides(base) if (all_ := ways(side.condition, base.vocabulary))]
    seen: dict[tuple[str, str, frozenset[Way]], Side] = {}
    for one in known:
        side = one.side
        here = (side.table, side.entry, (side.field,))
        twin = seen.get((side.about, side.speaks, one.ways))
        if twin and twin.entry.id != side.entry.id:
            found = _("what {other} says on the same condition").format(
                other=place(base, twin.table, twin.entry)
            )
            yield problem(base, "same", here, found, _("each thing said once"), _("take one of the two out"))
        other = seen.get((side.about, opposite(side.speaks), one.ways))
        if other and other.entry.id != side.entry.id:
            found = _contrast(base, side, other, _SAME)
            mend = _("take one of the two out or change its condition")
            yield problem(base, "opposite", here, found, _("one side for one condition"), mend)
        seen.setdefault((side.about, side.speaks, one.ways), side)
    yield from _overlaps(base, known)


def _overlaps(base: RuleBase, known: list[_Known]) -> Iterator[Problem]:
    """Yield evidence whose condition is a part of an opposite one's.

    A wider way asks for no more names than a narrower one, so only sides that share a name are compared.
    """
    by_name: dict[tuple[str, str, str], list[tuple[_Names, _Known]]] = defaultdict(list)
    evidence = [one for one in known if one.side.table == "evidence"]
    for one in evidence:
        for names in {_names(way) for way in one.ways}:
            by_name[one.side.about, one.side.speaks, min(names)].append((names, one))
    for one in evidence:
        side = one.side
        names = _names(next(iter(one.ways)))
        wider = {
            (other.side.entry.id, other.side.field): other
            for name in names
            for asks, other in by_name[side.about, opposite(side.speaks), name]
            if asks <= names and other.side.entry.id != side.entry.id and other.ways != one.ways
        }
        for other in wider.values():
            if within(one.ways, other.ways):
                found = _contrast(base, side, other.side, _WIDER)
                mend = _("narrow the wider one, if both together are not meant")
                here = ("evidence", side.entry, (side.field,))
                yield problem(base, "overlap", here, found, _("one side for one observation"), mend)


def _names(way: Way) -> _Names:
    return frozenset({fact for fact, _ in way.left} | {f"finding {finding}" for finding in way.findings})


def _contrast(base: RuleBase, side: Side, other: Side, said: Mapping[str, str]) -> str:
    return _(said[side.speaks]).format(cause=side.about, other=place(base, other.table, other.entry))
