"""Corrections against the example of Benjamini and Hochberg."""

import pytest

from eol.statistics.multiple import benjamini_hochberg, bonferroni, holm

# Y. Benjamini and Y. Hochberg, Journal of the Royal Statistical Society B 57 (1995), section 3.2,
# as repeated in the documentation of SciPy (read there).
P_VALUES = [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324]
P_VALUES += [0.4262, 0.5719, 0.6528, 0.759, 1.0]
ADJUSTED = [0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571428571, 0.0638571428571, 0.0645]
ADJUSTED += [0.0765, 0.486, 0.581181818182, 0.714875, 0.753230769231, 0.813214285714, 1.0]


@pytest.mark.parametrize(
    ("correct", "rejected"), [(bonferroni, 3), (holm, 3), (benjamini_hochberg, 4)]
)
def test_corrections_reject_as_many_as_printed(correct, rejected):
    """9 of 15 look significant, 3 survive Bonferroni, 4 the false discovery rate."""
    assert sum(p <= 0.05 for p in P_VALUES) == 9
    assert correct(P_VALUES).named() == tuple(range(rejected))


def test_benjamini_hochberg_adjusted_values():
    """Adjusted values never fall: ranks 6 and 7 share 0.0638571."""
    assert benjamini_hochberg(P_VALUES).p == pytest.approx(ADJUSTED, abs=1e-9)
