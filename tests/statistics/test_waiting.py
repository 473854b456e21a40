"""Little's law: edges."""

import pytest

from eol.statistics.waiting import QueueCheck, little_check


def test_a_growing_queue_shows():
    """Twice as many wait as arrivals and times foretell."""
    assert little_check(arrivals=16, hours=8, mean_hours=2, waiting=8).ratio == 2


def test_no_hour_and_no_arrival():
    """Nothing looked at and nothing arrived: no ratio."""
    assert little_check(arrivals=0, hours=0, mean_hours=0, waiting=3) == QueueCheck(None, 3, None)
    assert little_check(arrivals=0, hours=8, mean_hours=0, waiting=3) == QueueCheck(0, 3, None)


def test_negative_numbers_are_refused():
    """A queue has no negative numbers."""
    with pytest.raises(ValueError, match="cannot be negative"):
        little_check(arrivals=-1, hours=8, mean_hours=1, waiting=0)
