"""Measures remembered by what they read, so that one other answer costs only the measures that look at it.

A module of measures is a pure function of the case, the plant's needs and the values it reads. What it reads is
watched: each name and its value becomes a branch of a tree whose leaves are results. Walking the tree with other
answers either ends at a result that the module would give again, or shows that it must be run.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import ModuleType
from typing import Any, Literal

from diagnose.measures.measure import Given, Measure

MOST_KEPT = 20_000
"""Results kept before all are forgotten (bounds memory; no effect on what is computed)."""

_Store = Literal["answers", "before"]


@dataclass(slots=True)
class _Read:
    """One name that a module looks up, and where each value found leads."""

    store: _Store
    name: str
    next: dict[Any, "_Read | tuple[Measure, ...]"] = field(default_factory=dict)


class MeasureMemory:
    """Results of one case's measures under other answers; give its `run` to `measure_all`."""

    def __init__(self) -> None:
        self._first: dict[str, _Read | tuple[Measure, ...]] = {}
        self._kept = 0
        self.looked_up: set[str] = set()
        """Names of answers that any module was ever seen to look up."""

    def run(self, module: ModuleType, given: Given) -> tuple[Measure, ...]:
        """Return what the module's `measure` yields for `given`, from memory if it read the same before."""
        name = module.__name__
        found = self._first.get(name)
        while isinstance(found, _Read):
            found = found.next.get(getattr(given, found.store).get(found.name))
        if found is None:
            found = self._compute(module, given)
        return found

    def readers(self) -> dict[str, tuple[set[str], set[str]]]:
        """Return module -> names of answers and of earlier measures that it was ever seen to look up."""
        return {name: _names(tree) for name, tree in self._first.items()}

    def gives(self) -> dict[str, set[str]]:
        """Return module -> names of the measures that it was ever seen to yield."""
        return {name: {measure.name for measure in _results(tree)} for name, tree in self._first.items()}

    def _compute(self, module: ModuleType, given: Given) -> tuple[Measure, ...]:
        reads: dict[tuple[_Store, str], Any] = {}
        watched = replace(
            given,
            answers=_Watched("answers", given.answers, reads),
            before=_Watched("before", given.before, reads),
        )
        result = tuple(module.measure(watched))
        if self._kept >= MOST_KEPT:
            self._first, self._kept = {}, 0
        self._keep(module.__name__, list(reads.items()), result)
        self._kept += 1
        self.looked_up.update(name for store, name in reads if store == "answers")
        return result

    def _keep(
        self, module: str, reads: list[tuple[tuple[_Store, str], Any]], result: tuple[Measure, ...]
    ) -> None:
        branches: dict[Any, _Read | tuple[Measure, ...]] = self._first
        key: Any = module
        for (store, name), value in reads:
            here = branches.setdefault(key, _Read(store, name))
            assert isinstance(here, _Read)  # noqa: S101 - same reads so far, so the same name is read next
            branches, key = here.next, value
        branches[key] = result


class _Watched(Mapping[str, Any]):
    """A mapping that notes what was looked up, absent names (as None) included, each once and in order."""

    def __init__(self, store: _Store, inner: Mapping[str, Any], reads: dict[tuple[_Store, str], Any]) -> None:
        self._store, self._inner, self._reads = store, inner, reads

    def __getitem__(self, name: str) -> Any:
        self._reads.setdefault((self._store, name), self._inner.get(name))
        return self._inner[name]

    def __iter__(self) -> Iterator[str]:
        raise TypeError("a measure looks its inputs up by name; going through all of them is not remembered")

    def __len__(self) -> int:
        return len(self._inner)


def _nodes(tree: "_Read | tuple[Measure, ...]") -> "Iterator[_Read | tuple[Measure, ...]]":
    waiting = [tree]
    while waiting:
        here = waiting.pop()
        yield here
        if isinstance(here, _Read):
            waiting += here.next.values()


def _names(tree: "_Read | tuple[Measure, ...]") -> tuple[set[str], set[str]]:
    names: dict[_Store, set[str]] = {"answers": set(), "before": set()}
    for node in _nodes(tree):
        if isinstance(node, _Read):
            names[node.store].add(node.name)
    return names["answers"], names["before"]


def _results(tree: "_Read | tuple[Measure, ...]") -> Iterator[Measure]:
    for node in _nodes(tree):
        if not isinstance(node, _Read):
            yield from node
