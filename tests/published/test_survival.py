"""Kaplan and Meier on the remission times of Freireich."""

import pytest

from eol.statistics.survival import kaplan_meier

# E. J. Freireich and others, Blood 21 (1963), pages 699-716: weeks of remission under 6-MP; the
# curve as printed in D. R. Cox and D. Oakes, "Analysis of Survival Data", 1984, and in most texts
# (from memory, reproduced). An open unit is one still in remission.
ENDED = [6, 6, 6, 7, 10, 13, 16, 22, 23]
OPEN = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]
PRINTED = {6: 0.857, 7: 0.807, 10: 0.753, 13: 0.690, 16: 0.627, 22: 0.538, 23: 0.448}


def test_kaplan_meier_of_the_remissions():
    """The printed curve to three digits, median 23 weeks."""
    found = kaplan_meier(ENDED + OPEN, [1] * len(ENDED) + [0] * len(OPEN))
    curve = dict(zip(found.times, found.waiting, strict=True))
    assert curve == pytest.approx(PRINTED, abs=5e-4)
    assert (found.median, found.ended, found.open) == (23, 9, 12)


def test_interval_is_the_log_log_one():
    """At 6 weeks 0.620 to 0.952 (SAS and R with log-log, from memory, reproduced)."""
    found = kaplan_meier(ENDED + OPEN, [1] * len(ENDED) + [0] * len(OPEN))
    assert (found.low[0], found.high[0]) == pytest.approx((0.620, 0.952), abs=1e-3)
