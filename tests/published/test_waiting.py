"""Little's law on its usual example."""

from eol.statistics.waiting import little_check


def test_little_check_of_the_wine_cellar():
    """A cellar of 240 bottles on average, 160 bought a year: 1.5 years each.

    J. D. C. Little and S. C. Graves, "Building Intuition", 2008, chapter 5 (from memory): L = λW.
    """
    found = little_check(arrivals=160, hours=1, mean_hours=1.5, waiting=240)
    assert (found.foretold, found.ratio) == (240, 1)
