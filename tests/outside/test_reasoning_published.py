"""The arithmetic of evidence and information against published worked examples and a general library."""

import math
from collections import Counter, defaultdict

import pytest
from scipy.stats import entropy

from diagnose.reasoning.information import expected_bits, told_bits
from diagnose.rulebase.strengths import probability

# S-12: Quinlan 1986, Induction of decision trees, table 1; Mitchell 1997, Machine Learning, table 3.2 (data at
# uvm.edu/~cbcafier/cs2510/content/05_dtrf/decision_tree_iii.html): outlook, temperature, humidity, wind, play
TENNIS = [
    row.split()
    for row in (
        "sunny hot high weak no",
        "sunny hot high strong no",
        "overcast hot high weak yes",
        "rain mild high weak yes",
        "rain cool normal weak yes",
        "rain cool normal strong no",
        "overcast cool normal strong yes",
        "sunny mild high weak no",
        "sunny cool normal weak yes",
        "rain mild normal weak yes",
        "sunny mild normal strong yes",
        "overcast mild high strong yes",
        "overcast hot normal weak yes",
        "rain mild high strong no",
    )
]
GAINS = {0: 0.2467, 1: 0.0292, 2: 0.1518, 3: 0.0481}


def decibans(share):
    """Score of a share; certainty stands for 400 dB, beyond what any digit of the gains could show."""
    if share in (0, 1):
        return 400.0 if share else -400.0
    return 10 * math.log10(share / (1 - share))


@pytest.mark.parametrize(("column", "gain"), GAINS.items())
def test_expected_information_is_quinlans_gain(column, gain):
    plays = defaultdict(Counter)
    for row in TENNIS:
        plays[row[column]][row[4]] += 1
    answers = [
        (count.total() / 14, {"plays": decibans(count["yes"] / count.total())}) for count in plays.values()
    ]
    assert expected_bits({"plays": decibans(9 / 14)}, answers) == pytest.approx(gain, abs=5e-5)


@pytest.mark.parametrize(
    ("before", "after"), [((-5, 3), (7.5, 3)), ((0, 0), (12.5, -5)), ((20, -10), (-2.5, 4))]
)
def test_bits_told_are_relative_entropies(before, after):
    one, two = dict(zip("ab", before, strict=True)), dict(zip("ab", after, strict=True))
    expected = 0.0
    for cause in "ab":
        p, q = probability(two[cause]), probability(one[cause])
        expected += entropy(
            [p, 1 - p], [q, 1 - q], base=2
        )  # scipy: relative entropy of the first to the second
    odds = [[10 ** (scores[cause] / 10) for cause in "ab"] for scores in (two, one)]
    expected += entropy(*odds, base=2)  # scipy scales each to add up to 1
    assert told_bits(one, two) == pytest.approx(expected)


def test_odds_and_decibans_add_up_as_in_the_wartime_notes():
    # Fish Notes on setting the Tunny wheels, 1944-45 (codesandciphers.org.uk, wffishnotes, WFAX7103): a prior of 8 to 5
    # against, 10 log10(8/13) = -2; a run worth 15 decibans makes 13 up, "20 to 1 on"; one worth 6 makes 4, "5 to 2 on"
    start = round(10 * math.log10(8 / 13))
    assert start == -2
    for run, total, odds in ((15, 13, 20 / 1), (6, 4, 5 / 2)):
        assert start + run == total
        p = probability(start + run)
        assert p / (1 - p) == pytest.approx(odds, rel=0.01)
