"""All measures in the order they are computed; a later one may use an earlier one's results."""

from collections.abc import Callable, Iterable, Mapping
from types import ModuleType

from diagnose.case import Case
from diagnose.measures import air, feeding, leaves, light, roots, season
from diagnose.measures.measure import Declaration, Given, Measure, Value
from diagnose.measures.needs import PlantNeeds

_MODULES: tuple[ModuleType, ...] = (season, light, leaves, air, roots, feeding)

DECLARED: tuple[Declaration, ...] = tuple(name for module in _MODULES for name in module.DECLARED)


def _run(module: ModuleType, given: Given) -> Iterable[Measure]:
    return module.measure(given)  # type: ignore[no-any-return]


def measure_all(
    case: Case,
    answers: Mapping[str, Value],
    needs: PlantNeeds,
    run: Callable[[ModuleType, Given], Iterable[Measure]] = _run,
) -> dict[str, Measure]:
    """Return every measure that can be had, by name; `run` may remember what a module gave before."""
    results: dict[str, Measure] = {}
    for module in _MODULES:
        given = Given(case, answers, needs, dict(results))
        results |= {measure.name: measure for measure in run(module, given)}
    return results
