"""Words that figures and page share."""

from __future__ import annotations

from eol.figures.wording import hours_words, short_title


def test_hours_in_words() -> None:
    """Minutes under an hour, whole hours above, a dash where unknown."""
    assert [hours_words(hours) for hours in (0.25, 1.0, 75.6, None)] == [
        "15 min",
        "1 h",
        "76 h",
        "–",
    ]


def test_short_title() -> None:
    """The word test is left out where every row would repeat it."""
    assert short_title("Squeak and rattle track") == "Squeak and rattle"
