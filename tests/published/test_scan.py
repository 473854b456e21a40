"""The scan's likelihood ratio against Kulldorff's formula."""

from math import log

import numpy as np
import pytest

from eol.statistics.scan import ScanOrder, scan_order, scan_sequence, window_log_ratio

# 100 units in build order, 16 with the defect (invented; figures calculated).
PLACES = [p - 1 for p in (9, 34, 61, 63, 66, 67, 71, 72, 75, 79, 80, 84, 88, 90, 91, 97)]


def test_window_log_ratio_is_kulldorffs():
    """M. Kulldorff, Communications in Statistics 26 (1997), Bernoulli model (formula read).

    c^c (n-c)^(n-c) (C-c)^(C-c) … over C^C (N-C)^(N-C) N^-N, in logs; c 14, n 40, C 16, N 100.
    """
    inside = 14 * log(14 / 40) + 26 * log(26 / 40)
    outside = 2 * log(2 / 60) + 58 * log(58 / 60)
    alone = 16 * log(16 / 100) + 84 * log(84 / 100)
    found = window_log_ratio(defects=14, units=40, all_defects=16, all_units=100)
    assert found == pytest.approx(inside + outside - alone, rel=1e-12)
    assert 2 * found == pytest.approx(18.6008752365, rel=1e-9)


def test_scan_sequence_finds_the_raised_part():
    """From unit 61 on the share is 0.35 against 0.033: the window begins there."""
    window = scan_sequence(PLACES, units=100)
    assert (window.first, window.last, window.defects) == (60, 96, 14)
    assert window.p < 0.01


def test_scan_order_keeps_what_belongs_together():
    """The same sequence with units taken in tens: the window is the four tens from the seventh."""
    tens = np.arange(100) // 10
    order = ScanOrder(tens * 10, tens * 10 + 9, np.zeros(100, dtype=np.int64), longest=50)
    window = scan_order(np.array(PLACES), order, draws=99, seed=1)
    assert (window.first, window.last, window.defects, window.units) == (60, 99, 14, 40)
    assert 2 * window.log_ratio == pytest.approx(18.6008752365, rel=1e-9)
