"""Closeness of factors against Snee's table of hair and eyes."""

import numpy as np
import pytest

from eol.statistics.together import cramers_v, group_factors

# R. D. Snee, American Statistician 28 (1974), pages 9-12: 592 students, hair (black, brown, red,
# blond) by eyes (brown, blue, hazel, green); from memory, as in R's HairEyeColor.
HAIR_AND_EYES = np.array([[68, 20, 15, 5], [119, 84, 54, 29], [26, 17, 14, 14], [7, 94, 10, 16]])


def test_cramers_v_of_hair_and_eyes():
    """Chi-square 138.29 of 592 gives V = 0.279 (R's vcd package, from memory, reproduced)."""
    hair, eyes = np.repeat(np.indices((4, 4)).reshape(2, -1), HAIR_AND_EYES.ravel(), axis=1)
    assert cramers_v(hair, eyes) == pytest.approx(0.279, abs=5e-4)
    assert 592 * 3 * cramers_v(hair, eyes) ** 2 == pytest.approx(138.29, abs=5e-3)


def test_group_factors_is_single_linkage():
    """Sneath 1957: a chain of close pairs is one group though its ends are not close."""
    chain = [[1, 0.8, 0.1, 0], [0.8, 1, 0.75, 0], [0.1, 0.75, 1, 0.3], [0, 0, 0.3, 1]]
    assert group_factors(chain) == ((0, 1, 2), (3,))
