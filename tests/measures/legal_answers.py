"""Random legal answers: every question that ships, within its own bounds."""

import datetime as dt
import tomllib
from collections.abc import Mapping
from functools import cache
from types import ModuleType
from typing import Any

from hypothesis import strategies as st

from diagnose.case import Case, Place
from diagnose.locations import built_in_rules
from diagnose.measures.measure import Given, Measure, Value
from diagnose.measures.needs import HumidityNeed, LeafNumber, PlantNeeds, WarmthNeed

DATE = dt.date(2026, 1, 15)
NEEDS = PlantNeeds(
    warmth=WarmthNeed(origin="invented", chill_c=12, night_least_c=17, day_least_c=20, day_most_c=32),
    humidity=HumidityNeed(origin="invented", least_percent=50, good_percent=65),
    leaf_number=LeafNumber(origin="invented", standing_low=3, standing_high=6),
)
_LONGEST_D = 3650


@cache
def questions() -> dict[str, dict[str, Any]]:
    found = {}
    for file in sorted((built_in_rules() / "questions").glob("*.toml")):
        for question in tomllib.loads(file.read_text(encoding="utf-8")).get("question", []):
            found[question["id"]] = question
    return found


def _answer(question: dict[str, Any]) -> st.SearchStrategy[Value] | None:
    match question["kind"]:
        case "number":
            return st.floats(question["least"], question["most"]) | st.sampled_from(
                [float(question["least"]), float(question["most"])]
            )
        case "choice":
            return st.sampled_from([choice["id"] for choice in question["choices"]])
        case "yes_no":
            return st.sampled_from(["yes", "no"])
        case "date":
            return st.integers(0, _LONGEST_D).map(float)
    return None


def legal(names: tuple[str, ...]) -> st.SearchStrategy[dict[str, Value]]:
    """Return some of the named questions, each with a legal answer."""
    known = {name: _answer(questions()[name]) for name in names if name in questions()}
    return st.fixed_dictionaries({}, optional={name: s for name, s in known.items() if s is not None})


def inputs(module: ModuleType) -> tuple[str, ...]:
    return tuple(sorted({name for declared in module.DECLARED for name in declared.inputs}))


def measured(
    *modules: ModuleType,
    answers: Mapping[str, Value],
    needs: PlantNeeds = NEEDS,
    elevation_m: float | None = None,
    before: Mapping[str, Measure] | None = None,
) -> dict[str, Measure]:
    """Return what the modules yield one after the other, by name."""
    results = dict(before or {})
    case = Case(date=DATE, place=Place(elevation_m=elevation_m))
    for module in modules:
        given = Given(case, answers, needs, dict(results))
        results |= {measure.name: measure for measure in module.measure(given)}
    return results


def ends(measure: Measure) -> tuple[float, float]:
    """Return low and high of a measure that has both."""
    assert measure.low is not None
    assert measure.high is not None
    return measure.low, measure.high


def already(**values: float) -> dict[str, Measure]:
    """Return measures that an earlier module would have computed."""
    return {name: Measure(name, value, ()) for name, value in values.items()}


def check_contract(results: Mapping[str, Measure], module: ModuleType) -> None:
    """Assert that each measure is declared, in its bounds, and in order low, value, high."""
    declared = {each.name: each for each in module.DECLARED}
    for name, measure in results.items():
        if name not in declared:
            continue
        assert measure.used
        assert len(set(measure.used)) == len(measure.used)
        if declared[name].words:
            assert measure.value in declared[name].words
            continue
        numbers = [n for n in (measure.low, measure.value, measure.high) if n is not None]
        assert numbers == sorted(numbers), (name, numbers)
        assert all(declared[name].least <= float(n) <= declared[name].most for n in numbers), (name, numbers)
