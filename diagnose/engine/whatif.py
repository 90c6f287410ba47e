"""What would fire if some facts were otherwise: runs only the rules that the change can reach."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from diagnose.engine.limits import checked
from diagnose.engine.session import CompiledEngine, Firing
from diagnose.rulebase.model import Evidence, Rule

Facts = Mapping[str, float | str]

Remembered = dict[tuple[object, ...], tuple[Firing, ...]]
"""What was told to a part -> what fired in it."""


@dataclass(frozen=True, slots=True)
class _Part:
    """The rules that one fact can reach, the facts they ask for, and an engine of them alone."""

    rules: frozenset[str]
    facts: tuple[str, ...]
    findings: frozenset[str]
    """Those that its rules ask for."""
    size: int
    engine: CompiledEngine


class WhatIf:
    """Supposes other facts. The small engines it needs are made when first asked for, and kept."""

    def __init__(self, rules: Iterable[Rule | Evidence]) -> None:
        """Take the rules; raises EngineLimitError if the engine cannot hold them."""
        self._compiled = checked(rules)
        self._whole = CompiledEngine(self._compiled)
        self._gives = {rule.id: rule.gives for rule in self._compiled}
        self._asking: dict[tuple[str, str], set[str]] = {}
        for rule in self._compiled:
            for pattern in rule.patterns:
                self._asking.setdefault((pattern.kind, pattern.name), set()).add(rule.id)
        self._parts: dict[str, _Part] = {}

    def suppose(
        self,
        facts: Facts,
        firings: Sequence[Firing],
        changes: Mapping[str, float | str | None],
        remembered: Remembered | None = None,
    ) -> tuple[Firing, ...]:
        """Return what would fire if these facts changed; None makes a fact unknown.

        `firings` is what `infer(facts)` returned. The result equals `infer` on the changed facts. What is
        `remembered` of earlier suppositions is not run again; what is run is added to it.
        """
        real = {name: value for name, value in changes.items() if value != facts.get(name)}
        parts = {name: self._part(name) for name in real if ("fact", name) in self._asking}
        if sum(part.size for part in parts.values()) >= len(self._compiled):
            return self._whole.infer(_changed(facts, real))
        known, fired = dict(facts), tuple(firings)
        for name, part in parts.items():
            known = _changed(known, {name: real[name]})
            fired = self._rerun(name, part, known, fired, {} if remembered is None else remembered)
        return fired

    def reach(self, names: Iterable[str]) -> frozenset[str]:
        """Return the rule sides whose firing can depend on these facts, through findings too."""
        return frozenset().union(
            *(self._part(name).rules for name in names if ("fact", name) in self._asking)
        )

    def close(self) -> None:
        """Give the engines' memory back."""
        for engine in (self._whole, *(part.engine for part in self._parts.values())):
            engine.close()

    def _rerun(
        self, name: str, part: _Part, facts: Facts, fired: tuple[Firing, ...], remembered: Remembered
    ) -> tuple[Firing, ...]:
        apart = [firing for firing in fired if firing.rule not in part.rules]  # these cannot change
        given = {finding for firing in apart if (finding := self._gives[firing.rule])}
        given &= part.findings
        told = (name, tuple(map(facts.get, part.facts)), frozenset(given))
        again = remembered.get(told)
        if again is None:
            again = part.engine.infer({fact: facts[fact] for fact in part.facts if fact in facts}, given)
            remembered[told] = again
        return tuple(sorted((*apart, *again), key=lambda firing: firing.rule))

    def _part(self, name: str) -> _Part:
        if name not in self._parts:
            reached: set[str] = set()
            work = [("fact", name)]
            while work:
                for rule in self._asking.get(work.pop(), set()) - reached:
                    reached.add(rule)
                    if finding := self._gives[rule]:
                        work.append(("finding", finding))
            compiled = [rule for rule in self._compiled if rule.id in reached]
            self._parts[name] = _Part(
                frozenset(reached),
                tuple(sorted({fact for rule in compiled for fact in rule.names("fact")})),
                frozenset(finding for rule in compiled for finding in rule.names("finding")),
                len(compiled),
                CompiledEngine(compiled),
            )
        return self._parts[name]


def _changed(facts: Facts, changes: Mapping[str, float | str | None]) -> dict[str, float | str]:
    return {name: value for name, value in {**facts, **changes}.items() if value is not None}
