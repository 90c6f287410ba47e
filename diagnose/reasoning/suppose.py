"""What would be concluded if answers were others: the same measures, the same rules, the same arithmetic.

The case itself is never touched. Exact: the result equals a diagnosis of the changed case (tested on random
changes); quick, since measures and rules that the change cannot reach are not run again.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from diagnose.case import AnswerValue
from diagnose.engine import Firing, WhatIf
from diagnose.engine.whatif import Remembered
from diagnose.facts import fact_names, told_if
from diagnose.measures.measure import Value
from diagnose.measures.memory import MeasureMemory
from diagnose.measures.registry import measure_all
from diagnose.ranking import Scales, order
from diagnose.reasoning.known import Known, scores_of
from diagnose.rulebase.logic import DECIMALS
from diagnose.rulebase.model import Question
from diagnose.rulebase.resolve import conditions_in
from diagnose.rulebase.rulebase import RuleBase

Changes = Mapping[str, AnswerValue | None]
"""Question -> another answer; None: not known."""


Thresholds = Mapping[str, tuple[float, ...]]
"""Fact -> the numbers that rules compare it with, in order."""


@dataclass(frozen=True, slots=True)
class Supposed:
    """What would be known, would fire and would be scored."""

    values: Mapping[str, Value]
    changed: frozenset[str]
    """Facts that some rule can tell from what they are now."""
    firings: tuple[Firing, ...]
    scores: Mapping[str, float]
    order: tuple[str, ...]
    """Cause ids, first first."""

    @property
    def first(self) -> str:
        """The cause that would come first."""
        return self.order[0]


class Supposer:
    """A rule base made ready for suppositions about any number of cases."""

    def __init__(self, base: RuleBase) -> None:
        self.base = base
        self.scales = Scales(base)
        self.engine = WhatIf([*base.rules.values(), *base.evidence.values()])
        self.limits = thresholds(base)
        self._memories: list[tuple[object, MeasureMemory]] = []

    def about(self, known: Known) -> "Supposing":
        """Return what makes suppositions about one diagnosed case."""
        return Supposing(self, known, self._memory(known))

    def close(self) -> None:
        """Give the engines' memory back."""
        self.engine.close()

    def _memory(self, known: Known) -> MeasureMemory:
        """Measures are remembered from one answer to the next while the rest of the case stays the same."""
        case = known.gathered.case
        rest = case.model_copy(update={"answers": {}, "not_known": (), "title": "", "story": ""})
        key = (rest, known.gathered.needs)
        for place, (other, memory) in enumerate(self._memories):
            if other == key:
                self._memories.insert(0, self._memories.pop(place))
                return memory
        memory = MeasureMemory()
        self._memories = [(key, memory), *self._memories[:3]]
        return memory


class Supposing:
    """Suppositions about one diagnosed case."""

    def __init__(self, supposer: Supposer, known: Known, memory: MeasureMemory) -> None:
        self.known = known
        self.scales = supposer.scales
        self.limits = supposer.limits
        self._engine = supposer.engine
        self._memory = memory
        self._values = known.gathered.values
        self._measured = self._measure(told_if(known.gathered, known.base, {}))
        self._reach: dict[frozenset[str], frozenset[str]] = {}
        self._done: dict[tuple[str, AnswerValue | None], Supposed] = {}
        self._remembered: Remembered = {}
        self.now = Supposed(
            self._values,
            frozenset(),
            known.firings,
            scores_of(known),
            tuple(cause.id for cause in known.ranking.causes),
        )

    def suppose(self, changes: Changes) -> Supposed:
        """Return what would be concluded with these answers changed.

        Raises:
            AnswerError: a question does not take its answer.

        """
        if len(changes) != 1:
            return self._suppose(changes)
        (change,) = changes.items()
        if change not in self._done:
            self._done[change] = self._suppose(changes)
        return self._done[change]

    def values(self, changes: Changes) -> dict[str, Value]:
        """Return the values of all facts with these answers changed."""
        told = told_if(self.known.gathered, self.known.base, changes)
        base = self.known.base
        names = {name for question in changes for name in fact_names(base.questions[question])}
        if names.isdisjoint(self._memory.looked_up):
            return self._measured | told
        return self._measure(told) | told

    def _measure(self, told: Mapping[str, Value]) -> dict[str, Value]:
        gathered = self.known.gathered
        measured = measure_all(gathered.case, told, gathered.needs, self._memory.run)
        return {name: measure.value for name, measure in measured.items()}

    def touched(self, questions: Iterable[Question]) -> dict[str, frozenset[str]]:
        """Return question -> every fact that can depend on its answer, measures included.

        Goes by what measures were ever seen to look up: run the single changes first.
        """
        readers, gives = self._memory.readers(), self._memory.gives()
        found = {}
        for question in questions:
            touched, waiting = set(fact_names(question)), dict(readers)
            while hit := [
                m for m, (answers, before) in waiting.items() if touched & answers or touched & before
            ]:
                for module in hit:
                    touched |= gives[module]
                    del waiting[module]
            found[question.id] = frozenset(touched)
        return found

    def reach(self, names: frozenset[str]) -> frozenset[str]:
        """Return the sides of rules whose firing can depend on these facts."""
        if names not in self._reach:
            self._reach[names] = self._engine.reach(names)
        return self._reach[names]

    def _suppose(self, changes: Changes) -> Supposed:
        values = self.values(changes)
        differing = {
            name: values.get(name)
            for name in {**self._values, **values}
            if self._can_tell(name, self._values.get(name), values.get(name))
        }
        firings = self._engine.suppose(self._values, self.known.firings, differing, self._remembered)
        scores = self.scales.scores(firing.rule for firing in firings)
        return Supposed(values, frozenset(differing), firings, scores, tuple(order(scores)))

    def _can_tell(self, name: str, one: Value | None, other: Value | None) -> bool:
        """Whether any rule could tell two values of a fact apart."""
        if one == other:
            return False
        if isinstance(one, str) or isinstance(other, str):
            return True
        limits = self.limits.get(name, ())
        return band(one, limits) != band(other, limits)


def thresholds(base: RuleBase) -> Thresholds:
    """Return the numbers that rules compare facts with."""
    found: dict[str, set[float]] = {}
    for rule in (*base.rules.values(), *base.evidence.values()):
        for _, test in conditions_in(rule.when, ()):
            operand = test.operand(test.operator) if test.fact else None
            for one in operand if isinstance(operand, tuple) else (operand,):
                if isinstance(one, int | float):
                    found.setdefault(test.fact or "", set()).add(one)
    return {name: tuple(sorted(numbers)) for name, numbers in found.items()}


def band(value: Value | None, limits: tuple[float, ...]) -> int:
    """Return how many half-steps of thresholds a number has passed (up to one, and beyond it); -1 if not known.

    Numbers in the same band are the same to every rule.
    """
    if not isinstance(value, int | float):
        return -1
    number = round(value, DECIMALS)
    return bisect_left(limits, number) + bisect_right(limits, number)
