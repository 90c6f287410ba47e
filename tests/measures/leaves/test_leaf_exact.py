"""Plain-Python intervals and tests against scipy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special, stats

from diagnose.measures.leaves.exact import (
    binomial_at_least,
    binomial_at_most,
    poisson_interval,
    poisson_terms,
    rate_ratio,
    share_interval,
    sum_at_least,
)

counts = st.integers(0, 3000)


@given(counts)
def test_poisson_limits_are_quantiles_of_gamma(count):
    low, high = poisson_interval(count)
    assert high == pytest.approx(special.gammaincinv(count + 1, 0.975), rel=1e-8)
    assert low == (pytest.approx(special.gammaincinv(count, 0.025), rel=1e-8) if count else 0)


@given(st.integers(1, 600), st.data())
def test_limits_of_a_share_are_quantiles_of_beta(trials, data):
    successes = data.draw(st.integers(0, trials))
    low, high = share_interval(successes, trials)
    assert low == (
        pytest.approx(special.betaincinv(successes, trials - successes + 1, 0.025)) if successes else 0
    )
    if successes < trials:
        assert high == pytest.approx(special.betaincinv(successes + 1, trials - successes, 0.975))
    else:
        assert high == 1
    assert low <= successes / trials <= high


@given(st.integers(0, 400), st.integers(-1, 401), st.floats(0, 1))
def test_binomial_tails(trials, successes, chance):
    assert binomial_at_most(successes, trials, chance) == pytest.approx(
        stats.binom.cdf(successes, trials, chance), abs=1e-9
    )
    assert binomial_at_least(successes, trials, chance) == pytest.approx(
        stats.binom.sf(successes - 1, trials, chance), abs=1e-9
    )


@given(st.floats(1e-6, 5000))
def test_poisson_terms_are_the_whole_distribution(mean):
    first, terms = poisson_terms(mean)
    assert sum(terms) == pytest.approx(1, abs=1e-9)
    middle = len(terms) // 2
    assert terms[middle] == pytest.approx(stats.poisson.pmf(first + middle, mean), rel=1e-6, abs=1e-12)


@given(st.integers(0, 12), st.floats(0, 1))
def test_trials_of_one_chance_are_binomial(trials, chance):
    for successes in range(trials + 1):
        expected = stats.binom.sf(successes - 1, trials, chance)
        assert sum_at_least(successes, (chance,) * trials) == pytest.approx(expected, abs=1e-12)


@given(st.integers(0, 60), st.floats(1, 1000), st.integers(0, 60), st.floats(1, 1000))
def test_p_and_interval_of_two_rates_never_disagree(count_a, time_a, count_b, time_b):
    found = rate_ratio(count_a, time_a, count_b, time_b)
    if count_a + count_b == 0:
        assert found is None
        return
    assert found.low <= found.ratio <= found.high
    if abs(found.p - 0.05) > 1e-9:
        assert (found.p < 0.05) == (not found.low <= 1 <= found.high)
