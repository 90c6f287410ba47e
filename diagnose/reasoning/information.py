"""How much an answer would tell of the ranking, in bits.

What is believed is, of each cause, whether it is at work (each weighed on its own), and which of them is the main one
(their odds, scaled to add up to 1). What an answer tells is the Kullback-Leibler divergence of what is believed after
it from what was before, summed over these; what a question is expected to tell is the mean of that over its answers
(Lindley 1956, *On a measure of the information provided by an experiment*; from memory). Where the answers' shares
agree with the probabilities, the mean is the expected fall of entropy: Quinlan's information gain (S-12). Unlike that
difference it is never below zero when they do not quite agree, as with shares that are rules of thumb.
"""

import math
from collections.abc import Iterable, Mapping

from diagnose.rulebase.strengths import probability

Scores = Mapping[str, float]
"""Cause -> decibans."""


def told_bits(before: Scores, after: Scores) -> float:
    """Return what is told by going from one set of scores to another, in bits."""
    if all(score == before[cause] for cause, score in after.items()):
        return 0.0
    each = sum(_divergence(before[cause], score) for cause, score in after.items())
    return each + _main_divergence(before, after)


def _main_divergence(before: Scores, after: Scores) -> float:
    """KL divergence of two beliefs about which cause is the main one."""
    total_before, total_after = _log10_total(before), _log10_total(after)
    return sum(
        10 ** (score / 10 - total_after) * ((score - before[cause]) / 10 - total_after + total_before)
        for cause, score in after.items()
    ) / math.log10(2)


def _log10_total(scores: Scores) -> float:
    most = max(scores.values())
    return most / 10 + math.log10(sum(10 ** ((score - most) / 10) for score in scores.values()))


def expected_bits(before: Scores, answers: Iterable[tuple[float, Scores]]) -> float:
    """Return what a question is expected to tell; `answers`: how probable each is, and the scores after it."""
    return math.fsum(chance * told_bits(before, after) for chance, after in answers)


def chances(priors: Scores, before: Scores, answers: Iterable[tuple[float, Scores]]) -> list[float]:
    """Return how probable each answer is for this plant; `answers`: its share among growers, the scores after it.

    Shares hold for a plant of which nothing is known. An answer whose weight for a cause is L (likelihood ratio)
    is given 1 + p (L - 1) times as often when the cause has the probability p as when it is ruled out; so each share
    is multiplied by [1 + p (L - 1)] / [1 + p0 (L - 1)] for every cause, p0 being its probability before anything
    was known, and all are scaled to add up to 1. Causes are taken to act apart (common practice).
    """
    raw = []
    for share, after in answers:
        chance = share
        for cause, score in after.items():
            if score != before[cause]:
                more = 10 ** ((score - before[cause]) / 10) - 1
                now, at_first = probability(before[cause]), probability(priors[cause])
                chance *= (1 + now * more) / (1 + at_first * more)
        raw.append(chance)
    total = math.fsum(raw)
    return [chance / total for chance in raw]


def _divergence(before_db: float, after_db: float) -> float:
    """KL divergence of two yes-or-no beliefs, from scores, so that near-certainty loses no digits."""
    after = probability(after_db)
    return after * (_log2_odds_share(after_db) - _log2_odds_share(before_db)) + (1 - after) * (
        _log2_odds_share(-after_db) - _log2_odds_share(-before_db)
    )


def _log2_odds_share(score_db: float) -> float:
    """Base-2 logarithm of the probability of a score."""
    return -math.log1p(10 ** (-score_db / 10)) / math.log(2)
