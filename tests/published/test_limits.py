"""Control limits against the e-Handbook, Ishikawa's series and Laney's formula."""

import numpy as np
import pytest

from eol.statistics.limits import c_limits, p_limits, sigma_z, u_limits

# NIST/SEMATECH e-Handbook 6.3.3.1: defects on 25 wafers (public domain, read).
WAFERS = [16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14, 16, 15, 13, 14, 16, 11, 20, 11, 19]
WAFERS += [16, 31, 13]
# NIST/SEMATECH e-Handbook 6.3.3.2: faulty of 30 samples of 50 (public domain, read).
WAFER_SAMPLES = [12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24]
WAFER_SAMPLES += [15, 9, 12, 7, 13, 9, 6]
# K. Ishikawa, "Guide to Quality Control", pages 77-79: faulty and sizes of 20 samples (the numbers
# as kept in a public statistics system's data file, read; limits calculated).
FAULTY = [14, 19, 19, 24, 15, 16, 38, 40, 21, 32, 40, 25, 39, 36, 17, 19, 4, 9, 12, 26]
SIZES = [125, 200, 188, 200, 200, 250, 390, 360, 250, 250, 395, 300, 310, 200, 300, 185, 55, 90]
SIZES += [130, 300]
# The same book, pages 81-83: counts and exposures of 20 samples.
COUNTS = [4, 3, 3, 4, 5, 3, 6, 7, 5, 3, 5, 5, 4, 6, 5, 4, 4, 6, 8, 8]
EXPOSURES = [2] * 6 + [2.5] * 7 + [2.25] * 5 + [2.75] * 2


def test_c_limits_of_the_wafers():
    """Center 16, limits 4 and 28; wafer 3 (28) lies on the limit and is no signal, 24 is."""
    limits = c_limits(WAFERS)
    assert (limits.center, limits.low, limits.high) == (16, 4, 28)
    beyond = [i for i, count in enumerate(WAFERS, 1) if limits.place(count) != "inside"]
    assert beyond == [24]


def test_p_limits_of_the_wafer_samples():
    """0.2313, 0.0524 and 0.4102 as printed; samples 15 and 23 lie beyond."""
    limits = p_limits(WAFER_SAMPLES, [50] * 30, size=50)
    found = (limits.center, limits.low, limits.high)
    assert found == pytest.approx((0.2313, 0.0524, 0.4102), abs=1e-4)
    beyond = [i for i, n in enumerate(WAFER_SAMPLES, 1) if limits.place(n / 50) != "inside"]
    assert beyond == [15, 23]


@pytest.mark.parametrize(
    ("size", "low", "high"), [(125, 0.0191175951, 0.1796853121), (55, 0.0, 0.2204339242)]
)
def test_p_limits_follow_the_sample_size(size, low, high):
    """Ishikawa's series: each sample has limits of its own, the lower one clipped at 0."""
    limits = p_limits(FAULTY, SIZES, size=size)
    assert (limits.low, limits.high) == pytest.approx((low, high), abs=1e-6)


@pytest.mark.parametrize(("prime", "beyond"), [(False, [14]), (True, [])])
def test_p_prime_takes_the_spread_between_shifts_in(prime, beyond):
    """P flags sample 14 of Ishikawa's series, p′ none: the samples differ by more than chance."""
    found = [
        i
        for i, (count, size) in enumerate(zip(FAULTY, SIZES, strict=True), 1)
        if p_limits(FAULTY, SIZES, size=size, prime=prime).place(count / size) != "inside"
    ]
    assert found == beyond


def test_p_prime_limits_are_laneys():
    """Sigma z 1.378, upper limit of sample 14 0.18687 (Laney 2002's formula, calculated)."""
    limits = p_limits(FAULTY, SIZES, size=200, prime=True)
    assert (limits.sigma_z, limits.high) == pytest.approx((1.37813663138, 0.186871734672), abs=1e-6)


def test_sigma_z_is_the_mean_moving_range_over_1_128():
    """Mean moving range 1.5545 for Ishikawa's series (Laney 2002's formula, calculated)."""
    count, size = np.array(FAULTY, dtype=float), np.array(SIZES, dtype=float)
    center = count.sum() / size.sum()
    found = sigma_z(count / size, center, np.sqrt(center * (1 - center) / size))
    assert found * 1.128 == pytest.approx(1.5545381202, abs=1e-6)


@pytest.mark.parametrize(
    ("exposure", "high"),
    [(2, 5.20682033171), (2.25, 5.03022029042), (2.5, 4.88082190565), (2.75, 4.75229009189)],
)
def test_u_limits_follow_the_exposure(exposure, high):
    """Ishikawa's second series: 98 in 46.25 gives 2.11892, the lower limit 0, none beyond."""
    limits = u_limits(COUNTS, EXPOSURES, exposure=exposure)
    assert limits.center == pytest.approx(2.11891891892, abs=1e-6)
    assert (limits.low, limits.high) == pytest.approx((0, high), abs=1e-6)
