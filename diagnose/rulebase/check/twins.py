"""Pairs of rules: those that say the same, and those that say the opposite on the same or a narrower condition."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.problems import Problem
from diagnose.rulebase.check.entries import Side, opposite, place, problem, sides
from diagnose.rulebase.check.values import Way, ways, within
from diagnose.rulebase.rulebase import RuleBase

_Names = frozenset[str]


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
            found = f"what {place(base, twin.table, twin.entry)} says on the same condition"
            yield problem(base, "same", here, found, "each thing said once", "take one of the two out")
        other = seen.get((side.about, opposite(side.speaks), one.ways))
        if other and other.entry.id != side.entry.id:
            found = f"evidence {_contrast(base, side, other)} on the same condition"
            mend = "take one of the two out or change its condition"
            yield problem(base, "opposite", here, found, "one side for one condition", mend)
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
                found = f"evidence {_contrast(base, side, other.side)}, which is wider"
                mend = "narrow the wider one, if both together are not meant"
                here = ("evidence", side.entry, (side.field,))
                yield problem(base, "overlap", here, found, "one side for one observation", mend)


def _names(way: Way) -> _Names:
    return frozenset({fact for fact, _ in way.left} | {f"finding {finding}" for finding in way.findings})


def _contrast(base: RuleBase, side: Side, other: Side) -> str:
    return f"{side.speaks} {side.about}, {other.speaks} which {place(base, other.table, other.entry)} speaks"
