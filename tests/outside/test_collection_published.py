"""Tests and intervals over many plants, against published values and scipy."""

import itertools
import math
import random

import pytest
from scipy import stats

from diagnose.collection.chance import adjusted, drawn_at_least, ratio_of_shares, share_limits

# Benjamini & Hochberg 1995, J. R. Statist. Soc. B 57:289-300, section 4: 15 p-values of a trial of thrombolysis in
# myocardial infarction. At 5 % four are discoveries, and three by Bonferroni. Values as transcribed in scipy's
# documentation of false_discovery_control.
THROMBOLYSIS = (
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0
)  # fmt: skip


def test_the_worked_example_of_the_false_discovery_rate():
    assert [p <= 0.05 for p in adjusted(THROMBOLYSIS)] == [True] * 4 + [False] * 11
    assert sum(p <= 0.05 / 15 for p in THROMBOLYSIS) == 3


def test_the_order_in_which_p_values_come_does_not_matter():
    pick = random.Random(1)
    order = pick.sample(range(15), 15)
    mixed = adjusted([THROMBOLYSIS[n] for n in order])
    assert dict(zip(order, mixed, strict=True)) == dict(enumerate(adjusted(THROMBOLYSIS)))


@pytest.mark.parametrize("seed", range(20))
def test_adjusted_p_values_are_those_of_scipy(seed):
    pick = random.Random(seed)
    p_values = [pick.choice([pick.random(), pick.random() ** 4, 0.05]) for _ in range(pick.randrange(1, 60))]
    assert adjusted(p_values) == pytest.approx(tuple(stats.false_discovery_control(p_values)))


def test_nothing_adjusted_is_nothing():
    assert adjusted([]) == ()


def test_the_lady_tasting_tea():
    # Fisher 1935, The Design of Experiments, chapter 2: of 8 cups 4 had milk first; all 4 named right has chance 1/70,
    # at least 3 right 17/70 (from memory; it is 1/C(8,4) and (1 + 16)/C(8,4))
    assert drawn_at_least(4, 4, 4, 8) == pytest.approx(1 / 70)
    assert drawn_at_least(3, 4, 4, 8) == pytest.approx(17 / 70)


@pytest.mark.parametrize(
    ("drawn", "marked", "total"), list(itertools.product((0, 3, 30), (0, 5, 40), (40, 300)))
)
def test_the_upper_tail_is_that_of_scipy(drawn, marked, total):
    for hits in range(min(drawn, marked) + 1):
        assert drawn_at_least(hits, drawn, marked, total) == pytest.approx(
            stats.hypergeom.sf(hits - 1, total, marked, drawn), abs=1e-12
        )


def test_the_upper_tail_is_fishers_exact_test():
    table = [[12, 55], [7, 226]]
    assert drawn_at_least(12, 67, 19, 300) == pytest.approx(
        stats.fisher_exact(table, alternative="greater").pvalue
    )


@pytest.mark.parametrize(("successes", "trials"), [(1, 7), (3, 7), (5, 10), (14, 18), (173, 174), (1, 300)])
def test_jeffreys_limits_are_quantiles_of_beta(successes, trials):
    # Brown, Cai & DasGupta 2001, Statistical Science 16:101-133, section 3.1: limits at 2.5 % and 97.5 % of Beta(x + ½, n - x + ½)
    beta = stats.beta(successes + 0.5, trials - successes + 0.5)
    assert share_limits(successes, trials) == pytest.approx((beta.ppf(0.025), beta.ppf(0.975)))


def test_jeffreys_limits_reach_the_ends():
    # as modified there: 0 at no success, 1 at nothing but successes
    assert share_limits(0, 9)[0] == 0.0
    assert share_limits(9, 9)[1] == 1.0
    assert share_limits(0, 0) == (0.0, 1.0)


def test_jeffreys_limits_cover_as_published():
    # Brown, Cai & DasGupta 2001: the mean coverage over p of the Jeffreys interval lies close to the nominal 95 %;
    # computed here exactly for n = 50 over p in (0, 1)
    n = 50
    limits = [share_limits(x, n) for x in range(n + 1)]
    chances = [(k + 0.5) / 200 for k in range(200)]
    coverage = [
        sum(stats.binom.pmf(x, n, p) for x in range(n + 1) if limits[x][0] <= p <= limits[x][1])
        for p in chances
    ]
    assert sum(coverage) / len(coverage) == pytest.approx(0.95, abs=0.005)


@pytest.mark.parametrize("counts", [(14, 18, 5, 40), (0, 10, 3, 12), (10, 10, 0, 10), (7, 20, 7, 20)])
def test_the_ratio_of_two_shares_is_that_of_draws(counts):
    a, of_a, b, of_b = counts
    draws = 400_000
    first = stats.beta.rvs(a + 0.5, of_a - a + 0.5, size=draws, random_state=1)
    second = stats.beta.rvs(b + 0.5, of_b - b + 0.5, size=draws, random_state=2)
    logs = sorted(math.log(max(x, 1e-300)) - math.log(y) for x, y in zip(first, second, strict=True))
    found = [math.log(ratio) for ratio in ratio_of_shares(*counts)]
    drawn = [logs[int(draws * q)] for q in (0.5, 0.025, 0.975)]
    assert found == pytest.approx(drawn, abs=0.08)


def test_a_rule_that_fires_alike_has_a_ratio_of_one():
    median, low, high = ratio_of_shares(7, 20, 7, 20)
    assert median == pytest.approx(1.0, abs=0.005)
    assert low == pytest.approx(1 / high, rel=0.02)
