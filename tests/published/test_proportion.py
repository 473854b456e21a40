"""Intervals of shares against printed tables. How known is said beside each source."""

import pytest

from eol.statistics.proportion import (
    clopper_pearson,
    highest_share_without_failure,
    newcombe_difference,
    wilson,
)

# R. G. Newcombe, Statistics in Medicine 17 (1998), pages 857-872, Table I: the first two score
# pairs were read quoted, the other figures are from memory, all reproduced. Printed to 4 digits.
NEWCOMBE_TABLE_I = [
    (81, 263, (0.2553, 0.3662), (0.2527, 0.3676)),
    (15, 148, (0.0624, 0.1605), (0.0578, 0.1617)),
    (0, 20, (0.0, 0.1611), (0.0, 0.1684)),
    (1, 29, (0.0061, 0.1718), (0.0009, 0.1776)),
]

# Snapshot tests of two public R packages (read), score interval: 7 digits but the first.
EDGES = [
    (7, 10, 0.95, (0.3968, 0.8922), 1e-4),
    (5, 10, 0.90, (0.2692718, 0.7307282), 1e-6),
    (0, 32, 0.95, (0.0, 0.1071792), 1e-6),
    (32, 32, 0.95, (0.8928208, 1.0), 1e-6),
]

# R. G. Newcombe, Statistics in Medicine 17 (1998), pages 873-890, Table II, method 10: the first
# two rows read quoted, the third from memory. The fourth: M. W. Fagerland, S. Lydersen, P. Laake,
# Statistical Methods in Medical Research 24 (2015), pages 224-254 (read in a package's tests).
NEWCOMBE_TABLE_II = [
    ((56, 70), (48, 80), 0.2, (0.0524, 0.3339), 1e-4),
    ((9, 10), (3, 10), 0.6, (0.1705, 0.8090), 1e-4),
    ((0, 10), (0, 10), 0.0, (-0.2775, 0.2775), 1e-4),
    ((7, 34), (1, 34), 0.1765, (0.019, 0.34), 5e-4),
]


@pytest.mark.parametrize(("successes", "n", "score", "_exact"), NEWCOMBE_TABLE_I)
def test_wilson_matches_newcombe_table_i(successes, n, score, _exact):
    """The interval of every FTT is Newcombe's method 3 (score, without continuity correction)."""
    found = wilson(successes, n)
    assert (found.low, found.high) == pytest.approx(score, abs=1e-4)


@pytest.mark.parametrize(("successes", "n", "_score", "exact"), NEWCOMBE_TABLE_I)
def test_clopper_pearson_matches_newcombe_table_i(successes, n, _score, exact):
    """The exact interval is Newcombe's method 5."""
    found = clopper_pearson(successes, n)
    assert (found.low, found.high) == pytest.approx(exact, abs=1e-4)


@pytest.mark.parametrize(("successes", "n", "confidence", "ends", "tolerance"), EDGES)
def test_wilson_at_the_edges(successes, n, confidence, ends, tolerance):
    """No success and no failure keep their ends at 0 and 1; 90 % is narrower."""
    found = wilson(successes, n, confidence=confidence)
    assert (found.low, found.high) == pytest.approx(ends, abs=tolerance)


@pytest.mark.parametrize(("first", "second", "value", "ends", "tolerance"), NEWCOMBE_TABLE_II)
def test_newcombe_difference_matches_table_ii(first, second, value, ends, tolerance):
    """The difference of two shares carries the hybrid score interval, method 10."""
    found = newcombe_difference(first, second)
    assert found.value == pytest.approx(value, abs=1e-4)
    assert (found.low, found.high) == pytest.approx(ends, abs=tolerance)


def test_highest_share_without_failure_is_the_rule_of_three():
    """None in 1,500 proves below 1 in 500 (Hanley and Lippman-Hand, JAMA 249, 1983, read)."""
    assert highest_share_without_failure(1500) < 1 / 500
    # The exact figures behind "three over n", calculated as 1 - 0.05^(1/n).
    found = [highest_share_without_failure(n) for n in (14, 30, 100)]
    assert found == pytest.approx([0.19263617565, 0.0950338528553, 0.029513049607], rel=1e-9)
