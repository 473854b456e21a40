"""Words that the facts share."""

from __future__ import annotations

from datetime import datetime

import pytest

from eol.facts.remark import joined, lasting, moment, place_words
from eol.words import counted


@pytest.mark.parametrize(
    ("n", "words"), [(0, "0 passes"), (1, "1 pass"), (2, "2 passes"), (1200, "1200 passes")]
)
def test_counted(n: int, words: str) -> None:
    """One thing stands in the singular, none and many in the plural that is given."""
    assert counted(n, "pass", "passes") == words


def test_plural_by_rule() -> None:
    """Without a plural given an s is added."""
    assert counted(0, "unit") == "0 units"


@pytest.mark.parametrize(
    ("words", "sentence"),
    [([], ""), (["W"], "W"), (["W", "T1"], "W and T1"), (list("abc"), "a, b and c")],
)
def test_joined(words: list[str], sentence: str) -> None:
    """Words are joined by commas and a last and."""
    assert joined(words) == sentence


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (0, "0 min"),
        (7199, "120 min"),
        (7200, "2 h"),
        (259_199, "72 h"),
        (259_200, "3 days"),
        (-660, "-11 min"),
    ],
)
def test_lasting(seconds: float, words: str) -> None:
    """Minutes up to two hours, hours up to three days, then days; a clock that is fast counts below zero."""
    assert lasting(seconds) == words


def test_moment() -> None:
    """A moment is a day and a time of day, without seconds."""
    assert moment(datetime(2026, 10, 25, 2, 5, 59)) == "2026-10-25 02:05"


def test_place() -> None:
    """A station without bays is named alone."""
    assert (place_words("W", "B"), place_words("T1", None)) == ("W bay B", "T1")
