"""Excess against Snow's houses."""

import pytest

from eol.statistics.excess import excess_defects


def test_excess_of_the_cholera_deaths():
    """J. Snow, "On the Mode of Communication of Cholera", 1855, Table IX, page 86 (from memory).

    1,263 deaths in 40,046 houses of one water company, 98 in 26,107 of the other: 315 and 37 in
    10,000, so that by the other's share 150 were expected and 1,113 are in excess.
    """
    found = excess_defects([[[1263, 40046 - 1263], [98, 26107 - 98]]])
    assert pytest.approx(37, abs=0.6) == 10_000 * 98 / 26107
    assert (found.defects, round(found.expected), round(found.excess)) == (1263, 150, 1113)
    assert found.explained == pytest.approx(1113 / 1361, abs=1e-3)
