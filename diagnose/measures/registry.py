"""All measures in the order they are computed; a later one may use an earlier one's results."""

from collections.abc import Mapping

from diagnose.case import Case
from diagnose.measures import air, feeding, leaves, light, roots, season
from diagnose.measures.measure import Declaration, Given, Measure, Value
from diagnose.measures.needs import PlantNeeds

_MODULES = (season, light, leaves, air, roots, feeding)

DECLARED: tuple[Declaration, ...] = tuple(name for module in _MODULES for name in module.DECLARED)


def measure_all(case: Case, answers: Mapping[str, Value], needs: PlantNeeds) -> dict[str, Measure]:
    """Return every measure that can be had, by name."""
    results: dict[str, Measure] = {}
    for module in _MODULES:
        given = Given(case, answers, needs, dict(results))
        results |= {measure.name: measure for measure in module.measure(given)}
    return results
