"""Remembered measures are the measures computed anew, and are not computed again."""

import random
from collections import Counter

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.facts import gather
from diagnose.measures import registry
from diagnose.measures.memory import MeasureMemory


def told(gathered):
    return {name: fact.value for name, fact in gathered.facts.items() if fact.source != "measure"}


@pytest.mark.parametrize(
    "name", ["dim_corner_in_december", "three_weeks_after_the_post", "soggy_after_the_big_pot"]
)
def test_with_any_answers_left_out_the_result_is_the_same(name, base):
    case, _ = read_case(locations.demo_cases() / f"{name}.toml")
    gathered = gather(case, base)
    answers, memory, rng = told(gathered), MeasureMemory(), random.Random(1)
    for _ in range(40):
        some = {key: value for key, value in answers.items() if rng.random() < 0.8}
        anew = registry.measure_all(case, some, gathered.needs)
        assert registry.measure_all(case, some, gathered.needs, memory.run) == anew
        assert registry.measure_all(case, some, gathered.needs, memory.run) == anew


def test_a_module_runs_again_only_for_an_answer_that_it_reads(base, monkeypatch):
    case, _ = read_case(locations.demo_cases() / "soggy_after_the_big_pot.toml")
    gathered, runs, memory = gather(case, base), Counter(), MeasureMemory()
    compute = memory._compute

    def counted(module, given):
        runs[module.__name__.rpartition(".")[2]] += 1
        return compute(module, given)

    monkeypatch.setattr(memory, "_compute", counted)
    answers = told(gathered)
    registry.measure_all(case, answers, gathered.needs, memory.run)
    registry.measure_all(case, answers | {"leaf_spots": "none"}, gathered.needs, memory.run)
    assert set(runs.values()) == {1}
    registry.measure_all(case, answers | {"medium_now": "moist"}, gathered.needs, memory.run)
    assert runs["roots"] == 2
    assert runs["leaves"] == 1
    assert "medium_now" in memory.readers()["diagnose.measures.roots"][0]
