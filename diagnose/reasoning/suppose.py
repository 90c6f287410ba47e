"""What would be concluded if answers were others: the same measures, the same rules, the same arithmetic.

The case itself is never touched. Exact: the result equals a diagnosis of the changed case (tested on random
changes); quick, since measures and rules that the change cannot reach are not run again.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.case import AnswerValue
from diagnose.engine import Firing, WhatIf
from diagnose.facts import fact_names, told_if
from diagnose.measures.measure import Value
from diagnose.measures.memory import MeasureMemory
from diagnose.measures.registry import measure_all
from diagnose.ranking import Scales, order
from diagnose.reasoning.known import Known, scores_of
from diagnose.rulebase.model import Question
from diagnose.rulebase.rulebase import RuleBase

Changes = Mapping[str, AnswerValue | None]
"""Question -> another answer; None: not known."""


@dataclass(frozen=True, slots=True)
class Supposed:
    """What would be known, would fire and would be scored."""

    values: Mapping[str, Value]
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
        self._engine = supposer.engine
        self._memory = memory
        self._values = known.gathered.values
        self._measured = self._measure(told_if(known.gathered, known.base, {}))
        self._done: dict[tuple[str, AnswerValue | None], Supposed] = {}
        self.now = Supposed(
            self._values, known.firings, scores_of(known), tuple(cause.id for cause in known.ranking.causes)
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

    def touched(self, question: Question) -> frozenset[str]:
        """Return every fact that can depend on a question's answer, measures included.

        Goes by what measures were ever seen to look up: run the single changes first.
        """
        touched = set(fact_names(question))
        modules = self._memory.readers()
        gives = self._memory.gives()
        grown = True
        while grown:
            grown = False
            for module, (answers, before) in list(modules.items()):
                if not touched.isdisjoint(answers) or not touched.isdisjoint(before):
                    touched |= gives[module]
                    del modules[module]
                    grown = True
        return frozenset(touched)

    def reach(self, names: frozenset[str]) -> frozenset[str]:
        """Return the sides of rules whose firing can depend on these facts."""
        return self._engine.reach(names)

    def _suppose(self, changes: Changes) -> Supposed:
        values = self.values(changes)
        differing: dict[str, Value | None] = {
            name: value for name, value in values.items() if self._values.get(name) != value
        }
        differing |= {name: None for name in self._values.keys() - values.keys()}
        firings = self._engine.suppose(self._values, self.known.firings, differing)
        scores = self.scales.scores(firing.rule for firing in firings)
        return Supposed(values, firings, scores, tuple(order(scores)))
