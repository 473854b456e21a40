"""Intervals and tests of counts against printed values. How known is said beside each source."""

import pytest

from eol.statistics.rate import ZERO_COUNT_HIGH, dphu_interval, e_test, poisson_exact, rate_ratio

# F. Garwood, Biometrika 28 (1936), Table 1, as in K. Ulm, American Journal of Epidemiology 131
# (1990): the row of 0 was read, those of 1, 5 and 10 are from memory; reproduced.
GARWOOD = [(0, 0.0, 3.689), (1, 0.0253, 5.572), (5, 1.623, 11.668), (10, 4.795, 18.390)]


@pytest.mark.parametrize(("count", "low", "high"), GARWOOD)
def test_poisson_exact_matches_garwood(count, low, high):
    """The exact limits of a count are Garwood's, to the digits printed."""
    found = poisson_exact(count)
    assert (found.low, found.high) == pytest.approx((low, high), abs=1e-3)


def test_poisson_exact_of_a_rate():
    """15 in 400: R's output as quoted in the tests of statsmodels (read there)."""
    found = poisson_exact(15, 400)
    assert (found.value, found.low, found.high) == pytest.approx(
        (0.0375, 0.0209884653319583, 0.0618505471787146), abs=1e-9
    )


def test_zero_count_high_is_garwoods_limit():
    """Rule 16's figure for no defect is a hundred times Garwood's limit of a count of zero."""
    assert pytest.approx(100 * poisson_exact(0).high, abs=1e-6) == ZERO_COUNT_HIGH


def test_dphu_interval_is_the_normal_interval_of_a_mean():
    """Von Bortkiewicz 1898, 200 corps-years: 109, 65, 22, 3, 1 with 0 to 4 deaths (printed widely).

    Mean 0.61 and variance 0.611 (printed to three digits) give 61 ± 196 √(0.611/200).
    """
    deaths = 65 + 2 * 22 + 3 * 3 + 4
    squares = 65 + 4 * 22 + 9 * 3 + 16
    found = dphu_interval(200, deaths, squares)
    half = 100 * 1.959964 * (0.611 / 200) ** 0.5
    assert (found.value, found.low, found.high) == pytest.approx(
        (61, 61 - half, 61 + half), abs=0.01
    )


def test_rate_ratio_matches_the_exact_conditional_test():
    """11 in 800 against 21 in 3,011: R's help of poisson.test, output from memory, reproduced."""
    found = rate_ratio((11, 800), (21, 3011))
    assert (found.ratio, found.low, found.high, found.p) == pytest.approx(
        (1.971488, 0.8584264, 4.277266, 0.07967), abs=1e-5
    )


def test_rate_ratio_of_none_against_three():
    """0 and 3 in equal exposures: the conditional test says 2 x 0.5³ = 0.25."""
    assert rate_ratio((0, 100), (3, 100)).p == pytest.approx(0.25, abs=1e-12)


def test_e_test_matches_krishnamoorthy_and_thomson():
    """0 and 3 in 100: 0.0884 in their example, as in the documentation of SciPy (read, 1e-9)."""
    assert e_test((0, 100), (3, 100)) == pytest.approx(0.08837900929018157, abs=1e-9)
