"""The nearest right word."""

from eol.plant.nearest import nearest


def test_a_slip_of_the_pen_finds_its_word() -> None:
    """A letter left out or swapped still names the word that was meant."""
    known = ["settle_hours", "silence_limit", "starts_on"]
    assert nearest("setle_hours", known) == "settle_hours"
    assert nearest("start_son", known) == "starts_on"


def test_case_does_not_matter() -> None:
    """TIMEZONE is timezone."""
    assert nearest("TIMEZONE", ["timezone"]) == "timezone"


def test_nothing_near_is_none() -> None:
    """A word unlike any other gets no offer, rather than a wrong one."""
    assert nearest("xyz", ["timezone", "name"]) is None
    assert nearest("timezone", []) is None
