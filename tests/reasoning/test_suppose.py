"""Supposing other answers equals diagnosing the changed case, measures and all."""

import random
from contextlib import closing

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import Diagnostician
from diagnose.facts import AnswerError
from diagnose.reasoning.suppose import Supposer, band
from diagnose.rulebase.model import RECORD_KINDS
from small_base import any_answer, small_base, small_case

DEMO = sorted(locations.demo_cases().glob("*.toml"))


@pytest.fixture(scope="module")
def supposer(base):
    return Supposer(base)


def changed(case, changes):
    answers = {name: answer for name, answer in (case.answers | changes).items() if answer is not None}
    return case.model_copy(update={"answers": answers})


def same(supposed, diagnosis):
    assert supposed.firings == diagnosis.firings
    assert supposed.values == diagnosis.gathered.values
    assert supposed.scores == {ranked.id: ranked.score_db for ranked in diagnosis.ranking.causes}
    assert supposed.order == tuple(ranked.id for ranked in diagnosis.ranking.causes)


@pytest.mark.parametrize("path", DEMO[::2], ids=lambda path: path.stem)
def test_changed_answers_of_the_demo_cases_give_what_a_diagnosis_of_the_changed_case_gives(
    path, base, diagnostician, supposer
):
    case, _ = read_case(path)
    supposing = supposer.about(diagnostician.diagnose(case))
    before = case.model_dump()
    rng = random.Random(path.stem)
    asked = [q for q in base.questions.values() if q.kind not in RECORD_KINDS]
    differ = 0
    for _ in range(25):
        picked = rng.sample(asked, rng.choice((1, 1, 2, 3)))
        changes = {q.id: any_answer(q, rng) if rng.random() < 0.8 else None for q in picked}
        if any(q.kind == "date" for q in picked):  # dates lie before the case's date
            changes = {
                q.id: case.date.replace(year=case.date.year - 1) if q.kind == "date" else changes[q.id]
                for q in picked
            }
        supposed = supposing.suppose(changes)
        same(supposed, diagnostician.diagnose(changed(case, changes)))
        differ += supposed.firings != supposing.now.firings
    assert differ > 5  # so that equality is no accident
    assert case.model_dump() == before


@given(st.integers(0, 10_000))
def test_on_random_rule_bases_too(seed):
    base, rng = small_base(seed), random.Random(seed)
    with closing(Diagnostician(base)) as diagnostician:
        case = small_case(base, rng, 0.7)
        diagnosis = diagnostician.diagnose(case)
        for _ in range(4):
            picked = rng.sample(list(base.questions.values()), 2)
            changes = {q.id: any_answer(q, rng) if rng.random() < 0.7 else None for q in picked}
            after = diagnostician.what_if(diagnosis, changes).after
            same(after, diagnostician.diagnose(changed(case, changes)))


def test_an_answer_that_is_taken_back_leaves_the_dated_event(base, diagnostician, supposer):
    case, _ = read_case(next(path for path in DEMO if path.stem == "three_weeks_after_the_post"))
    assert case.events
    supposing = supposer.about(diagnostician.diagnose(case))
    question = next(q for q in base.questions.values() if q.event == case.events[0].kind)
    told = changed(case, {question.id: case.date})
    same(supposing.suppose({question.id: case.date}), diagnostician.diagnose(told))
    back = supposer.about(diagnostician.diagnose(told)).suppose({question.id: None})
    same(back, diagnostician.diagnose(case))


def test_an_answer_that_its_question_does_not_take_is_refused(diagnostician):
    case, _ = read_case(DEMO[0])
    diagnosis = diagnostician.diagnose(case)
    with pytest.raises(AnswerError):
        diagnostician.what_if(diagnosis, {"medium_now": "purple"})
    with pytest.raises(KeyError):
        diagnostician.what_if(diagnosis, {"no_such_question": "yes"})


LIMITS = (1.0, 2.5, 7.0)


@given(st.floats(0, 9), st.floats(0, 9))
def test_numbers_in_one_band_are_the_same_to_every_test(one, other):
    def seen(value):
        value = round(value, 4)
        return [(value < n, value <= n, value == n) for n in LIMITS]

    assert (band(one, LIMITS) == band(other, LIMITS)) == (seen(one) == seen(other))
