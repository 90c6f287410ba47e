"""Leaf measures against published data, worked examples and a reference library."""

import datetime as dt
import math

import pytest
from lifelines import KaplanMeierFitter
from lifelines.utils import median_survival_times

from diagnose.case import Case, LeafCount
from diagnose.measures.leaves import measure
from diagnose.measures.leaves.change import rate_change
from diagnose.measures.leaves.exact import (
    binomial_at_least,
    binomial_at_most,
    poisson_interval,
    rate_ratio,
)
from diagnose.measures.leaves.lifespan import (
    Life,
    age_at_share,
    kaplan_meier,
    mean_life,
    median_limits,
)
from diagnose.measures.measure import Given


def lives(text):
    return [Life(float(word.rstrip("+")), not word.endswith("+")) for word in text.split()]


# Freireich et al. 1963, Blood 21:699-716, weeks in remission; + censored. Le, Introductory Biostatistics,
# Example 11.1 (S-01, S-02).
TREATED = lives("6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+")
PLACEBO = lives("1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23")
# Miller 1981, maintenance arm; values made with R survival 3.8.3 (S-16).
MAINTAINED = lives("9 13 13+ 18 23 28+ 31 34 45+ 48 161+")


def test_kaplan_meier_gives_the_printed_curve():
    # NAG Library, routine g12aac, example results (S-01).
    steps = kaplan_meier(TREATED)
    assert [step.days for step in steps] == [6, 7, 10, 13, 16, 22, 23]
    assert [round(step.share, 3) for step in steps] == [0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448]
    assert [round(step.error, 3) for step in steps] == [0.076, 0.087, 0.096, 0.107, 0.114, 0.128, 0.135]


def test_median_life_with_and_without_censoring():
    assert age_at_share(kaplan_meier(TREATED)) == 23  # S-01
    assert age_at_share(kaplan_meier(PLACEBO)) == 8  # S-02


def test_without_censoring_the_mean_life_is_the_mean():
    assert mean_life(tuple(PLACEBO)) == pytest.approx(sum(life.days for life in PLACEBO) / 21)
    assert mean_life(tuple(TREATED)) is None


def test_kaplan_meier_gives_the_second_published_curve():
    steps = kaplan_meier(MAINTAINED)  # S-16
    shares = [0.9091, 0.8182, 0.7159, 0.6136, 0.4909, 0.3682, 0.1841]
    errors = [0.0867, 0.1163, 0.1397, 0.1526, 0.1642, 0.1627, 0.1535]
    assert [round(step.share, 4) for step in steps] == shares
    assert [round(step.error, 4) for step in steps] == errors


@pytest.mark.parametrize("data", [TREATED, PLACEBO, MAINTAINED], ids=["treated", "placebo", "maintained"])
def test_curve_and_limits_of_the_median_agree_with_lifelines(data):
    fitter = KaplanMeierFitter().fit([x.days for x in data], [x.lost for x in data])
    for step in kaplan_meier(data):
        assert step.share == pytest.approx(float(fitter.predict(step.days)), abs=1e-12)
    limits = median_survival_times(fitter.confidence_interval_survival_function_).iloc[0].tolist()
    expected = [None if math.isinf(x) else x for x in limits]
    assert list(median_limits(kaplan_meier(data))) == expected


def test_two_rates_of_the_breast_cancer_study():
    # R poisson.test help example: 11 in 800 against 21 in 3011 person-years (S-03).
    found = rate_ratio(11, 800, 21, 3011)
    assert found is not None
    assert found.ratio == pytest.approx(1.971, abs=5e-4)
    assert (found.low, found.high) == (pytest.approx(0.858, abs=5e-4), pytest.approx(4.277, abs=5e-4))
    # R prints p = 0.0797: it adds the less likely outcomes of the other side. Rebuilt from the same terms.
    chance = 800 / 3811
    point = [binomial_at_most(k, 32, chance) - binomial_at_most(k - 1, 32, chance) for k in range(33)]
    assert sum(p for p in point if p <= point[11] * (1 + 1e-7)) == pytest.approx(0.0797, abs=5e-5)
    assert found.p == pytest.approx(2 * binomial_at_least(11, 32, chance))


def test_p_and_interval_of_two_rates_agree():
    # Fay 2010, R rateratio.test: another p, 0.0331, would be significant while the interval holds 1 (S-04).
    found = rate_ratio(2, 17877, 9, 16660)
    assert found is not None
    assert found.ratio == pytest.approx(0.2071, abs=5e-5)
    assert found.p == pytest.approx(0.0501, abs=5e-5)
    assert (found.low, found.high) == (pytest.approx(0.0218, abs=5e-5), pytest.approx(1.0005, abs=5e-5))


@pytest.mark.parametrize(
    ("count", "low", "high"),
    [
        (0, 0, 3.689),
        (1, 0.025, 5.572),
        (2, 0.242, 7.225),
        (3, 0.619, 8.767),
        (4, 1.090, 10.242),
        (5, 1.623, 11.668),
        (6, 2.202, 13.059),
        (7, 2.814, 14.423),
        (8, 3.454, 15.763),
        (9, 4.115, 17.085),
        (10, 4.795, 18.390),
    ],
)
def test_exact_poisson_limits(count, low, high):
    # Garwood 1936 (S-05).
    assert poisson_interval(count) == (pytest.approx(low, abs=5e-4), pytest.approx(high, abs=5.1e-4))


def test_one_rate():
    # R poisson.test example: 137 events, base 24.19893 (S-06).
    low, high = (limit / 24.19893 for limit in poisson_interval(137))
    assert (low, high) == (pytest.approx(4.753, abs=5e-4), pytest.approx(6.693, abs=5e-4))


# fmt: off
NILE = [
    1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140,
    995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
    1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840,
    874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
    831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821,
    768, 845, 864, 862, 698, 845, 744, 796, 1040, 759,
    781, 865, 845, 944, 984, 897, 822, 1010, 771, 676,
    649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
    744, 749, 838, 1050, 918, 986, 797, 923, 975, 815,
    1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
]
# fmt: on


def test_change_of_the_nile_is_found_at_1898():
    # Flow at Aswan 1871-1970 in 10^8 m3: Cobb 1978, Biometrika 65:243-251; R data set Nile (S-07).
    assert (len(NILE), sum(NILE)) == (100, 91935)
    found = rate_change(NILE, [1] * 100)
    assert found is not None
    assert 1871 + found.index == 1898
    assert found.rate_before == pytest.approx(1097.75)
    assert found.rate_after == pytest.approx(849.97, abs=5e-3)
    assert found.p < 1e-6


# British coal-mining disasters a year, 1851-1962: Jarrett 1979, Biometrika 66:191-193, as R's data set coal
# (package boot) tabulates them; table read at wgfoote.github.io/2021/01/03/gibbs-coal-mining-disasters.
COAL = {
    **dict.fromkeys(
        (1854, 1873, 1876, 1888, 1892, 1893, 1894, 1895, 1899, 1901, 1902, 1906, 1912, 1913, 1914, 1916), 1
    ),
    **dict.fromkeys((1918, 1923, 1927, 1928, 1933, 1934, 1936, 1937, 1938, 1939, 1946, 1951, 1957), 1),
    **dict.fromkeys((1960, 1962), 1),
    **dict.fromkeys((1865, 1881, 1883, 1884, 1887, 1890, 1891, 1909, 1910, 1922, 1930, 1935, 1940), 2),
    **dict.fromkeys((1857, 1861, 1862, 1867, 1868, 1872, 1879, 1885, 1889, 1896, 1905, 1908), 3),
    **dict.fromkeys((1931, 1932, 1941, 1942), 3),
    **dict.fromkeys((1851, 1853, 1856, 1858, 1863, 1870, 1874, 1875, 1880, 1886, 1947), 4),
    **dict.fromkeys((1852, 1869, 1871, 1877, 1878, 1882), 5),
    **dict.fromkeys((1860, 1866), 6),
}


def test_change_of_the_coal_mining_disasters_is_found_about_1891():
    counts = [COAL.get(year, 0) for year in range(1851, 1963)]
    assert sum(counts) == 191  # Jarrett 1979: 191 disasters
    found = rate_change(counts, [1] * 112)
    assert found is not None
    # Carlin, Gelfand & Smith 1992, Applied Statistics 41:389-405: posterior mode 1891 (from memory). The usual
    # explanation is the miners' federation of late 1889: Raftery & Akman 1986, quoted by R package spmrf.
    assert 1851 + found.index == 1891
    assert 1851 + found.earliest <= 1889 <= 1851 + found.latest
    assert found.rate_before == pytest.approx(3.1, abs=0.05)
    assert found.rate_after == pytest.approx(0.9, abs=0.05)
    assert found.p < 1e-6
    rise = rate_change(counts, [1] * 112, rises_only=True)
    assert rise is None or rise.p > 0.05  # it fell


def test_leaves_standing_are_opening_rate_times_life():
    # Little 1961: one leaf in 21 days, living 84 days, is 4 leaves (B-09).
    step = dt.timedelta(days=21)
    start = dt.date(2023, 1, 1)
    rows = [LeafCount(date=start, present=4)]
    rows += [
        LeafCount(date=start + n * step, present=4, new=1, lost=1, lost_which="oldest") for n in range(1, 25)
    ]
    case = Case(date=rows[-1].date, leaf_history=tuple(rows))
    found = {m.name: m for m in measure(Given(case, {}))}
    assert found["leaf_life_d"].value == 84
    assert found["expected_standing_leaves"].value == pytest.approx(4)
    assert found["standing_leaves"].value == 4
