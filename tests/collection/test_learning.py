"""What settled cases teach."""

import datetime as dt

import pytest

from diagnose.case import Case
from diagnose.collection.learning import learn
from diagnose.collection.strengths import LEAST_CASES, suggestions
from diagnose.journal.records import Outcome, RankedLine, RankingRecord, StoredCause
from diagnose.rulebase.model import Evidence

DAY = dt.date(2026, 1, 1)


def ranking(number, *causes):
    stored = tuple(
        StoredCause(cause, 0.0, chance, tuple(RankedLine("evidence", rule, db) for rule, db in lines))
        for cause, chance, lines in causes
    )
    return RankingRecord(number, number, DAY, "abc", Case(date=DAY), stored)


def ends(*causes):
    return {number: Outcome(number, number, DAY, cause) for number, cause in enumerate(causes, start=1)}


def test_right_and_wrong_firsts_are_counted():
    ranked = [
        ranking(n, ("a", 0.8, ()), ("b", 0.1, ()), ("c", 0.05, ()), ("d", 0.02, ())) for n in (1, 2, 3, 4, 5)
    ]
    found = learn(ranked, ends("a", "a", "b", "d", "z"))
    assert (found.cases, found.left_out, found.first_right, found.near_first) == (4, 1, 2, 3)
    assert found.said_of_first == pytest.approx(0.8)
    assert found.wrong == (("a", "b", 1), ("a", "d", 1))
    assert found.first_low < 0.5 < found.first_high
    # four cases of four causes: the mean of 16 squared differences, by hand
    told = (0.8, 0.1, 0.05, 0.02)
    by_hand = sum((p - (place == true)) ** 2 for true in (0, 0, 1, 3) for place, p in enumerate(told)) / 16
    assert found.calibration.brier == pytest.approx(by_hand)


def test_rules_helped_when_they_spoke_for_the_truth_or_against_the_rest():
    ranked = [
        ranking(1, ("a", 0.8, [("for_a", 10.0)]), ("b", 0.1, [("against_b", -5.0)])),
        ranking(2, ("a", 0.8, [("for_a", 10.0)]), ("b", 0.1, [("against_b", -5.0)])),
    ]
    found = {rule.rule: rule for rule in learn(ranked, ends("a", "b")).rules}
    assert (found["for_a"].helped, found["for_a"].misled, found["for_a"].net_db) == (1, 1, 0.0)
    assert (found["against_b"].helped, found["against_b"].misled) == (1, 1)
    found = {rule.rule: rule for rule in learn(ranked[:1], ends("a")).rules}
    assert (found["for_a"].net_db, found["against_b"].net_db) == (10.0, 5.0)


def test_without_settled_cases_nothing_is_said():
    found = learn([ranking(1, ("a", 0.5, ()))], {})
    assert (found.cases, found.calibration, found.reliability, found.rules) == (0, None, (), ())


@pytest.fixture
def rule():
    return Evidence.model_validate(
        {
            "id": "my_rule", "when": {"fact": "x", "is": "yes"}, "because": "it is so", "origin": "own",
            "fires": [{"x": "yes"}], "silent": [{"x": "no"}], "cause": "a", "speaks": "for", "strength": "decisive",
        }
    )  # fmt: skip


def cases(with_cause, without):
    """(fired, silent, unknown) with the cause and with another."""
    words = ("true", "false", "unknown")
    return [("a", {"my_rule": w}) for w, n in zip(words, with_cause, strict=True) for _ in range(n)] + [
        ("b", {"my_rule": w}) for w, n in zip(words, without, strict=True) for _ in range(n)
    ]


def test_a_strength_is_suggested_from_enough_cases_only(rule):
    enough, few = LEAST_CASES, LEAST_CASES - 1
    assert suggestions([rule], cases((few, 0, 50), (enough, 0, 0))) == ()
    assert suggestions([rule], cases((enough, 0, 0), (0, few, 50))) == ()
    assert len(suggestions([rule], cases((enough, 0, 0), (0, enough, 0)))) == 1


def test_a_rule_too_strong_for_its_cases_is_told(rule):
    (found,) = suggestions([rule], cases((16, 4, 0), (8, 32, 9)))
    assert (found.fired_with, found.known_with, found.fired_without, found.known_without) == (16, 20, 8, 40)
    # (16/20) / (8/40) = 4, 6.0 dB; the interval holds it and not 22.5
    assert found.low < 6.0 < found.high < found.now
    assert not found.agrees
    assert found.word in ("moderate, for", "substantial, for")


def test_a_rule_that_points_the_wrong_way_is_told(rule):
    (found,) = suggestions([rule], cases((2, 28, 0), (28, 2, 0)))
    assert found.high < 0
    assert found.word.endswith("against")


def test_a_rule_whose_strength_fits_agrees(rule):
    (found,) = suggestions([rule.model_copy(update={"strength": "moderate"})], cases((16, 4, 0), (8, 32, 0)))
    assert found.agrees
