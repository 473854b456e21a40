"""Rolled throughput yield: the edges of rule 11."""

import pytest

from eol.statistics.yields import rolled_yield


@pytest.mark.parametrize(
    ("shares", "expected"),
    [([], None), ([0.9], 0.9), ([0.9, 0.0], 0.0), ([0.9, None], None), ([None, 0.0], 0.0)],
)
def test_rolled_yield_at_the_edges(shares, expected):
    """0 where one test has 0, whatever the others; else null where one test has none (rule 11)."""
    assert rolled_yield(shares) == expected


def test_an_ftt_in_percent_is_refused():
    """A share of 95 is meant as 0.95."""
    with pytest.raises(ValueError, match="between 0 and 1"):
        rolled_yield([95])
