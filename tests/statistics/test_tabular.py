"""Tabular CUSUM: edges."""

import pytest

from eol.statistics.tabular import TwoSidedCusum, tabular_cusum, tabular_run_length


def test_no_value_gives_no_signal():
    """An empty series is quiet."""
    assert tabular_cusum([], target=0, k=1, h=5) == TwoSidedCusum((), (), None, "none")


def test_a_fall_is_told_as_a_fall():
    """The direction is that of the sum which crossed."""
    found = tabular_cusum([250, 247, 244, 241], target=250, k=1, h=5)
    assert (found.first_signal, found.direction) == (2, "down")


def test_run_length_is_the_same_up_and_down():
    """Both sides are watched alike."""
    assert tabular_run_length(1, k=0.5, h=4) == pytest.approx(tabular_run_length(-1, k=0.5, h=4))


def test_no_threshold_is_refused():
    """A threshold of 0 would signal at once."""
    with pytest.raises(ValueError, match="h must be positive"):
        tabular_cusum([1], target=0, k=1, h=0)
