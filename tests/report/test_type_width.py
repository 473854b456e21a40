"""Widths of text and breaks of lines."""

from __future__ import annotations

import pytest

from eol.report.type_width import lines_of, shortened, text_width


def test_bold_is_wider() -> None:
    """Bold type takes more room, and widths grow with the size."""
    assert text_width("Water test", 10, bold=True) > text_width("Water test", 10)
    assert text_width("Water test", 20) == pytest.approx(2 * text_width("Water test", 10))


def test_signs_beyond_ascii_have_a_width() -> None:
    """An umlaut counts as a digit, a sign of East Asia as a whole em."""
    assert text_width("ä", 10) == 6
    assert text_width("測", 10) == 10


def test_every_line_fits() -> None:
    """No line is wider than its place, and no word is lost."""
    text = "From data received up to 02:29. A missing record is not a pass."
    lines = lines_of(text, 90, 10)
    assert all(text_width(line, 10) <= 90 for line in lines)
    assert " ".join(lines) == text


def test_word_longer_than_a_line_is_broken() -> None:
    """A word of 200 signs is broken where the line ends, and stays whole."""
    lines = lines_of("x" * 200, 50, 10)
    assert len(lines) == 20
    assert "".join(lines) == "x" * 200


def test_what_does_not_fit_ends_in_dots() -> None:
    """Where there is room for two lines only, the second says that there is more."""
    first, second = lines_of("one two three four five six", 40, 10, most=2)
    assert (first, second[-1]) == ("one two", "…")
    assert text_width(second, 10) <= 40
    assert shortened("short", 40, 10) == "short"


def test_empty_text_is_one_empty_line() -> None:
    """Nothing to say takes one line."""
    assert lines_of("", 40, 10) == [""]
