"""Foreign names and words, and what they are like."""

from __future__ import annotations

import pytest

from eol.feeds.columns import COLUMNS
from eol.feeds.foreign_words import KEY_KINDS, MEANINGS, NAMES, likeness, meaning, plain

KNOWN = {column.name for columns in COLUMNS.values() for column in columns}


@pytest.mark.parametrize(
    ("sent", "column", "degree"),
    [
        ("Started At", "started_at", 4),
        ("PRÜFSTAND", "station", 3),
        ("VIN_NO", "vin", 2),
        ("FaultCode2", "code", 2),
        ("Wert [V]", "value", 3),
        ("Farbe", "vin", 0),
        ("within", "vin", 0),
        ("", "vin", 0),
    ],
)
def test_likeness(sent: str, column: str, degree: int) -> None:
    """The same name, another name for it, one of its words; parts of a word say nothing."""
    assert likeness(sent, column) == degree


@pytest.mark.parametrize(
    ("word", "result"),
    [
        ("i.O.", "pass"),
        ("N.I.O.", "fail"),
        ("Ok", "pass"),
        ("0", "fail"),
        ("so-so", None),
        ("", None),
    ],
)
def test_meaning(word: str, result: str | None) -> None:
    """Words for results without regard to case and stops."""
    assert meaning("result", word) == result


def test_words_are_plain_and_known() -> None:
    """The tables name columns that exist, and hold words as they are compared, none twice in one."""
    assert set(NAMES) <= KNOWN
    assert set(MEANINGS) <= KNOWN
    lists = [
        *NAMES.values(),
        *KEY_KINDS.values(),
        *(" ".join(m.values()) for m in MEANINGS.values()),
    ]
    for told in lists:
        assert told.split() == [plain(word) for word in told.split()]
        assert len(told.split()) == len(set(told.split()))
