"""The usual range: exact at small counts, never narrower than chance."""

import numpy as np
import pytest

from eol.statistics.limits import p_limits, u_limits
from eol.statistics.usual import usual_rate, usual_share


def test_quiet_history_does_not_narrow_the_range():
    """Equal shifts have sigma z 0; the range stays that of chance alone."""
    limits = usual_share([300] * 20, [400] * 20, size=400)
    plain = p_limits([300] * 20, [400] * 20, size=400)
    assert (limits.low, limits.high) == (plain.low, plain.high)
    rate = usual_rate([40] * 20, [400] * 20, exposure=400)
    assert rate.high == u_limits([40] * 20, [400] * 20, exposure=400).high


def test_small_counts_are_exact():
    """Four expected defects: the limits are counts, and 0 is inside."""
    limits = usual_rate([4] * 30, [400] * 30, exposure=400)
    assert limits.method == "exact"
    assert limits.low == 0
    assert limits.high * 400 == pytest.approx(11)


def test_exact_limits_are_exceeded_as_seldom_as_said():
    """Draws from the very rate: beyond in at most 0.135 % a side (here: counted exactly)."""
    from scipy.stats import nbinom, poisson

    limits = usual_rate([3] * 60, [400] * 60, exposure=400)
    top = round(limits.high * 400)
    assert poisson.sf(top, 3) <= 0.00135
    assert nbinom.sf(top - 1, 180.5, 60 / 61) > 0.00135


def test_exact_share_agrees_with_the_binomial_for_a_long_history():
    """With very many shifts behind it the range is that of the binomial distribution."""
    from scipy.stats import binom

    limits = usual_share([2] * 5000, [400] * 5000, size=400)
    assert limits.high * 400 == pytest.approx(binom.ppf(1 - 0.00135, 400, 0.005))


def test_overdispersed_small_counts_widen():
    """Alternating 0 and 6 defects: more than chance, so the range is wider than Poisson's."""
    spread = usual_rate([0, 6] * 15, [400] * 30, exposure=400)
    even = usual_rate([3] * 30, [400] * 30, exposure=400)
    assert spread.method == even.method == "exact"
    assert spread.high > even.high


@pytest.mark.parametrize("size", [1, 2, 400])
def test_no_defect_in_the_whole_history(size):
    """Zero in sixty shifts: a range from 0, without NaN, that one defect alone does not leave."""
    for limits in (
        usual_rate([0] * 60, [400] * 60, exposure=size),
        usual_share([0] * 60, [400] * 60, size=size),
        usual_share([400] * 60, [400] * 60, size=size),
    ):
        assert limits.low is not None
        assert np.isfinite([limits.low, limits.high]).all()
        assert limits.place(limits.center) == "inside"


def test_short_history_has_no_usual_range():
    """Fewer than 12 shifts: said in words, no limits."""
    assert usual_share([390] * 11, [400] * 11, size=400).place(0.1) == "unknown"
    assert usual_rate([4] * 11, [400] * 11, exposure=400).place(9) == "unknown"
