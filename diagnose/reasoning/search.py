"""The search for the smallest set of changed answers that puts another cause first.

What several changes do together is the sum of what each does alone, except where they meet: in a group of rules that
is weighed as one, or in a rule that looks at more than one of them. Groups are weighed anew from what fires. Of rules
where changes meet it is not known whether they fire; but evidence for a cause never lowers it and evidence against
never raises it, so taking all of them at their best for each rival and at their worst for the first gives a bound.
Only sets that the bound lets through are really tried. So nothing is missed, and little has to be run.
"""

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from diagnose.case import AnswerValue
from diagnose.reasoning.suppose import Supposed, Supposing

MOST_THREES = 1_500
"""Sets of three that are looked at, those with the most promising sums first (bounds the time to about a second)."""

_LEAST_DB = 0.125
"""Less than any difference of scores: all are multiples of 0.25."""

Single = tuple[str, AnswerValue]
"""A question's id and the answer to try."""
_Block = tuple[str, str]
"""A cause and a group of its rules; a rule of no group is alone in its block."""
_Set = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """The sets of the smallest size that put another cause first, and how far the search went."""

    sets: tuple[tuple[Single, ...], ...]
    searched: int
    """Sets up to this size were all looked at."""
    cut_off: bool


def search(supposing: Supposing, singles: Sequence[Single]) -> Found:
    """Return the smallest sets of one, two or three singles, of different questions, that put another cause first."""
    after = [supposing.suppose(dict([single])) for single in singles]
    first = supposing.now.first
    alone = [(single,) for single, then in zip(singles, after, strict=True) if then.first != first]
    if alone or not singles:
        return Found(tuple(alone), 1, cut_off=False)
    effects = _Effects(supposing, singles, after)
    for size, most in ((2, None), (3, MOST_THREES)):
        sets, margins, count = effects.sets(size, most)
        found = tuple(
            named
            for one, margin in zip(sets, margins, strict=True)
            if effects.may_change(one, margin)
            for named in [tuple(singles[place] for place in one)]
            if supposing.suppose(dict(named)).first != first
        )
        cut_off = count > len(sets)
        if found or cut_off:
            return Found(found, size - 1 if cut_off else size, cut_off)
    return Found((), 3, cut_off=False)


class _Effects:
    """What each single does alone, and a bound for what several do together."""

    def __init__(self, supposing: Supposing, singles: Sequence[Single], after: Sequence[Supposed]) -> None:
        now, first = supposing.now.scores, supposing.now.first
        self._supposing, self._scales, self._first = supposing, supposing.scales, first
        self._questions = [name for name, _ in singles]
        # at equal scores the cause whose id comes first is first
        self._lead = {c: now[first] - now[c] - (_LEAST_DB if c < first else 0) for c in now if c != first}
        self._gains = [{c: then.scores[c] - now[c] for c in now} for then in after]
        self._changed = [then.changed for then in after]
        self._now = self._by_block(firing.rule for firing in supposing.now.firings)
        self._after = [self._by_block(firing.rule for firing in then.firings) for then in after]
        self._moved = [
            {block for block in {**self._now, **then} if self._now.get(block) != then.get(block)}
            for then in self._after
        ]
        self._touched = supposing.touched(
            supposing.known.base.questions[name] for name in set(self._questions)
        )
        self._values: dict[frozenset[str], float] = {}
        self._open: dict[tuple[int, int], Mapping[_Block, frozenset[str]]] = {}
        self._opened: dict[frozenset[str], Mapping[_Block, frozenset[str]]] = {}

    def sets(self, size: int, most: int | None) -> tuple[list[_Set], list[list[float]], int]:
        """Return sets of this size, of different questions, the most promising sums first; and how many there are.

        With each set come its margins: by how much its sums would put each rival ahead of the first.
        """
        import numpy as np  # noqa: PLC0415 - slow to load, and seldom asked for

        combinations = itertools.combinations(range(len(self._questions)), size)
        picks = np.fromiter(itertools.chain.from_iterable(combinations), dtype=int).reshape(-1, size)
        _, question = np.unique(self._questions, return_inverse=True)
        for one, two in itertools.combinations(range(size), 2):
            picks = picks[question[picks[:, one]] != question[picks[:, two]]]
        gains = np.array([[gain[c] - gain[self._first] for c in self._lead] for gain in self._gains])
        margins = sum(gains[column] for column in picks.T) - np.array(list(self._lead.values()))
        order = np.argsort(-margins.max(axis=1, initial=-np.inf), kind="stable")[:most]
        return [tuple(one) for one in picks[order].tolist()], margins[order].tolist(), len(picks)

    def may_change(self, one: _Set, margins: Sequence[float]) -> bool:
        """Whether a set may put another cause first, by the margins of its sums: False only if it surely does not."""
        unsure: dict[_Block, frozenset[str]] = {}
        for pair in itertools.combinations(one, 2):
            for block, sides in self._unsure(pair).items():
                unsure[block] = unsure.get(block, frozenset()) | sides
        blocks = set(unsure)
        for two, other in itertools.combinations(one, 2):
            blocks |= self._moved[two] & self._moved[other]
        beyond: dict[str, float] = {}
        for block in blocks:
            more = self._beyond_the_sum(one, block, unsure.get(block, frozenset()))
            beyond[block[0]] = beyond.get(block[0], 0.0) + more
        for_first = beyond.get(self._first, 0.0)
        return any(
            margin + beyond.get(cause, 0.0) > for_first
            for cause, margin in zip(self._lead, margins, strict=True)
        )

    def _beyond_the_sum(self, one: _Set, block: _Block, unsure: frozenset[str]) -> float:
        """Return the most (for the first: the least) that a block adds to the sum of what each change does to it."""
        now = self._now.get(block, frozenset())
        then = [self._after[place].get(block, frozenset()) for place in one]
        sides = (now - frozenset().union(*(now - each for each in then))) | frozenset().union(
            *(each - now for each in then)
        )
        wanted = -1.0 if block[0] == self._first else 1.0
        best = (sides - unsure) | {side for side in unsure if self._decibans(side) * wanted > 0}
        return (
            self._value(best) - self._value(now) - sum(self._value(each) - self._value(now) for each in then)
        )

    def _unsure(self, pair: tuple[int, ...]) -> Mapping[_Block, frozenset[str]]:
        """Return the sides of rules, by block, of which two changes alone do not tell whether both make them fire."""
        key = (pair[0], pair[1])
        if key not in self._open:
            one, two = pair
            shared = self._touched[self._questions[one]] & self._touched[self._questions[two]]
            reach = self._supposing.reach
            sides = reach(shared) | (reach(self._changed[one]) & reach(self._changed[two]))
            if sides not in self._opened:
                self._opened[sides] = self._by_block(sides)
            self._open[key] = self._opened[sides]
        return self._open[key]

    def _by_block(self, sides: Iterable[str]) -> dict[_Block, frozenset[str]]:
        found: dict[_Block, set[str]] = {}
        for side in sides:
            if (weight := self._scales.of(side)) is not None:
                found.setdefault((weight.cause, weight.group or side), set()).add(side)
        return {block: frozenset(sides) for block, sides in found.items()}

    def _value(self, sides: frozenset[str]) -> float:
        if sides not in self._values:
            self._values[sides] = self._scales.group(tuple(sorted(self._decibans(side) for side in sides)))
        return self._values[sides]

    def _decibans(self, side: str) -> float:
        weight = self._scales.of(side)
        return weight.decibans if weight else 0.0
