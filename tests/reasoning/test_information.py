"""Bits told by answers: never negative, nothing for no change, and probable answers that add up to one."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.information import chances, expected_bits, told_bits

DB = st.floats(-60, 60).map(lambda x: round(4 * x) / 4)
SCORES = st.fixed_dictionaries({"a": DB, "b": DB, "c": DB})
ANSWERS = st.lists(st.tuples(st.floats(0.01, 1), SCORES), min_size=1, max_size=5)


@given(SCORES, SCORES)
def test_no_change_tells_nothing_and_any_change_tells_something(before, after):
    assert told_bits(before, before) == 0
    bits = told_bits(before, after)
    assert math.isfinite(bits)
    assert bits >= -1e-9
    if before != after and max(abs(after[c]) for c in after) < 30:
        assert bits > 0


@given(SCORES, SCORES, ANSWERS)
def test_the_probabilities_of_answers_add_up_to_one(priors, before, answers):
    likely = chances(priors, before, answers)
    assert math.fsum(likely) == pytest.approx(1)
    assert all(0 <= chance <= 1 for chance in likely)


@given(SCORES, ANSWERS)
def test_where_nothing_is_known_answers_are_as_frequent_as_documented(priors, answers):
    total = math.fsum(share for share, _ in answers)
    likely = chances(priors, priors, answers)
    assert likely == pytest.approx([share / total for share, _ in answers])


def test_an_answer_that_fits_a_likely_cause_is_the_likelier_for_it():
    priors, likely_cause = {"a": -10.0}, {"a": 10.0}
    answers = [(0.2, {"a": 10.0 + 12.5}), (0.8, {"a": 10.0})]
    assert (
        chances(priors, likely_cause, answers)[0] > 0.6
    )  # 0.2 x (1 + 0.909 x 16.8) / (1 + 0.0909 x 16.8), scaled


@given(SCORES, ANSWERS)
def test_a_question_is_expected_to_tell_no_less_than_nothing(before, answers):
    assert expected_bits(before, answers) >= -1e-9
