"""The moving average against the e-Handbook."""

import pytest

from eol.statistics.ewma import drift_to_limit, ewma

# NIST/SEMATECH e-Handbook 6.3.2.4: 20 values, start 50, weight 0.3, s 2.0539 (public domain; from
# memory, reproduced to the digits printed).
VALUES = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5]
VALUES += [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
PRINTED = [50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33]
PRINTED += [50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99]


def test_ewma_of_the_handbook():
    """All twenty averages and both limits, 47.4115 and 52.5884; nothing signals."""
    found = ewma(VALUES, target=50, sigma=2.0539, weight=0.3)
    assert found.averages == pytest.approx(PRINTED, abs=6e-3)
    assert (found.low, found.high) == pytest.approx((47.4115, 52.5884), abs=2e-4)
    assert found.signals == ()


def test_drift_slope_is_the_least_squares_one():
    """F. J. Anscombe, American Statistician 27 (1973), pages 17-21: his first set, in order of x.

    y = 3 + 0.5 x with standard error 0.118 (printed), x from 4 to 14 in steps of one.
    """
    found = drift_to_limit([4.26, 5.68, 7.24, 4.82, 6.95, 8.81, 8.04, 8.33, 10.84, 7.58, 9.96])
    assert found.slope == pytest.approx(0.500, abs=5e-4)
    assert found.direction == "up"
