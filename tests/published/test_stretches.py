"""Stretches against the oldest example of a best stretch."""

from eol.statistics.stretches import affected_stretches, best_stretches


def test_best_stretch_of_bentley():
    """31 -41 59 26 -53 58 97 -93 -23 84: the best sum is 187, from the third to the seventh.

    J. Bentley, "Programming Pearls", 1986, column 7 (from memory); a cost of 90 leaves only it.
    """
    (found,) = best_stretches([31, -41, 59, 26, -53, 58, 97, -93, -23, 84], cost=90)
    assert (found.first, found.last, found.score) == (2, 6, 187)


def test_affected_stretches_of_the_invented_sequence():
    """100 units, 0.033 before unit 61 and 0.35 after (as in test_scan.py): one stretch from it."""
    places = [p - 1 for p in (9, 34, 61, 63, 66, 67, 71, 72, 75, 79, 80, 84, 88, 90, 91, 97)]
    found = affected_stretches(places, units=100, usual=1 / 30, raised=0.35)
    assert [(s.first, s.last, s.defects) for s in found] == [(60, 96, 14)]
