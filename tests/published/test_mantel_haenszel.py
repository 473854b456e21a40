"""Factors within strata against the Berkeley admissions."""

import numpy as np
import pytest

from eol.statistics.mantel_haenszel import level_tables, mantel_haenszel, screen_levels

# P. J. Bickel, E. A. Hammel, J. W. O'Connell, Science 187 (1975), pages 398-404, as in R's data set
# UCBAdmissions (read): six departments, men then women, admitted then rejected.
BERKELEY = np.array(
    [
        [[512, 313], [89, 19]],
        [[353, 207], [17, 8]],
        [[120, 205], [202, 391]],
        [[138, 279], [131, 244]],
        [[53, 138], [94, 299]],
        [[22, 351], [24, 317]],
    ]
)


def test_odds_ratio_turns_over_within_departments():
    """1.84 in the sum of all tables, 0.9046968 within them (R, from memory, reproduced)."""
    crude = mantel_haenszel([BERKELEY.sum(axis=0)])
    within = mantel_haenszel(BERKELEY)
    assert crude.odds_ratio == pytest.approx(1.84108, abs=1e-5)
    assert within.odds_ratio == pytest.approx(0.9046968, abs=1e-7)
    assert (within.low, within.high) == pytest.approx((0.771907, 1.060330), abs=1e-5)


def test_corrected_statistic_is_the_printed_one():
    """X² 1.4269, p 0.2323 with the continuity correction: R's help of mantelhaen.test."""
    found = mantel_haenszel(BERKELEY)
    assert (found.chi2_corrected, found.p_corrected) == pytest.approx((1.4269, 0.2323), abs=1e-4)
    assert (found.chi2, found.p) == pytest.approx((1.52460666, 0.2169237), abs=1e-6)


def test_level_tables_count_the_berkeley_tables_from_units():
    """4,526 applicants one by one give the six tables back, and the same p-value at once."""
    cells = [(d, s, a) for d in range(6) for s in range(2) for a in range(2)]
    rows = np.repeat(cells, [BERKELEY[cell] for cell in cells], axis=0)
    tables = level_tables(rows[:, 2] == 0, rows[:, 1], rows[:, 0])
    assert np.array_equal(tables[0], BERKELEY)
    assert screen_levels(tables) == pytest.approx((0.2169237, 0.2169237), abs=1e-6)
