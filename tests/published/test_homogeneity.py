"""Equal odds ratios against the Berkeley admissions."""

import pytest

from eol.statistics.homogeneity import breslow_day, woolf

# Bickel, Hammel, O'Connell 1975, as in test_mantel_haenszel.py.
BERKELEY = [
    [[512, 313], [89, 19]],
    [[353, 207], [17, 8]],
    [[120, 205], [202, 391]],
    [[138, 279], [131, 244]],
    [[53, 138], [94, 299]],
    [[22, 351], [24, 317]],
]


def test_woolf_finds_the_one_department_that_differs():
    """P 0.003 in R's help of mantelhaen.test (read); with a half in every cell; chi2 calculated."""
    found = woolf(BERKELEY)
    assert (found.chi2, found.p) == pytest.approx((17.6440763642, 0.00342720049352), rel=1e-8)
    assert found.strata == 6


def test_breslow_day_of_the_departments():
    """18.8255 without Tarone's correction (as in R's DescTools; calculated)."""
    assert breslow_day(BERKELEY).chi2 == pytest.approx(18.8255137052, rel=1e-8)
