"""The scan: edges, a planted window, quiet sequences, and a second opinion over all windows."""

import numpy as np
import pytest

from eol.statistics.scan import scan_sequence, window_log_ratio


def test_agrees_with_a_plain_scan_of_all_windows():
    """Every window tried one by one has no higher ratio."""
    places = [4, 9, 11, 12, 30, 31, 58]
    best = 0.0
    for first in range(60):
        for last in range(first, min(60, first + 30)):
            inside = sum(first <= place <= last for place in places)
            units = last - first + 1
            ratio = window_log_ratio(defects=inside, units=units, all_defects=7, all_units=60)
            best = max(best, ratio)
    assert scan_sequence(places, units=60).log_ratio == pytest.approx(best)


def test_a_planted_window_is_found():
    """Ten percent over 200 units in 16,000 at half a percent: found within 60 units at each end."""
    rng = np.random.default_rng(21)
    bad = rng.random(16_000) < 0.005
    bad[9000:9200] = rng.random(200) < 0.1
    window = scan_sequence(np.flatnonzero(bad), units=16_000)
    assert window.p == 0.001
    assert abs(window.first - 9000) < 60
    assert abs(window.last - 9199) < 60


def test_quiet_sequences_seldom_signal():
    """Forty quiet sequences: p at or below 0.05 in about one of twenty."""
    rng = np.random.default_rng(22)
    p_values = [
        scan_sequence(np.sort(rng.choice(2000, 20, replace=False)), units=2000, draws=99).p
        for _ in range(40)
    ]
    assert sum(p <= 0.05 for p in p_values) <= 5


@pytest.mark.parametrize(("places", "units"), [([], 0), ([], 9), ([3], 9), ([0, 1, 2], 3)])
def test_nothing_to_scan(places, units):
    """No defect, one, or all units: no window."""
    assert scan_sequence(places, units=units) is None


def test_many_defects_are_scanned_in_coarser_steps():
    """A common defect of thousands stays fast, and its window is found."""
    rng = np.random.default_rng(23)
    bad = rng.random(20_000) < 0.05
    bad[5000:7000] = rng.random(2000) < 0.12
    window = scan_sequence(np.flatnonzero(bad), units=20_000, draws=99)
    assert window.p == 0.01
    assert abs(window.first - 5000) < 200


def test_a_window_without_more_than_the_rest_has_ratio_0():
    """Only a higher share counts."""
    assert window_log_ratio(defects=1, units=50, all_defects=5, all_units=100) == 0
    assert window_log_ratio(defects=5, units=100, all_defects=5, all_units=100) == 0


@pytest.mark.parametrize("places", [[5, 4], [3, 3], [-1, 2], [2, 10]])
def test_wrong_places_are_refused(places):
    """Places ascend and lie within the sequence."""
    with pytest.raises(ValueError, match="places"):
        scan_sequence(places, units=10)
