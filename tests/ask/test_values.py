"""Values as a person types them."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from eol.ask.values import parse_value, parse_values
from eol.errors import UsageError


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("", None),
        ("null", None),
        ("true", True),
        ("7", 7),
        ("-3", -3),
        ("007", "007"),
        ("1.50", 1.5),
        ("'7'", "7"),
        ("nan", "nan"),
        ("WL-SEAM", "WL-SEAM"),
        ("0ZZKWAG08TK100005", "0ZZKWAG08TK100005"),
        ("123456789012345678901", "123456789012345678901"),
        ("2026-09-14", date(2026, 9, 14)),
        ("2026-09-14T06:05:00Z", datetime(2026, 9, 14, 6, 5, tzinfo=UTC)),
    ],
)
def test_meaning(text: str, value: object) -> None:
    """A number, a date or a time is one; all else is text, also what only looks like a number."""
    assert parse_value(text) == value
    assert type(parse_value(text)) is type(value)


def test_names() -> None:
    """The first equals sign parts name and value."""
    assert parse_values(["a=b=c", "n=1"]) == {"a": "b=c", "n": 1}


@pytest.mark.parametrize("text", ["a", "=1", "a b=1", ""])
def test_no_value(text: str) -> None:
    """A text without a name is a wrong call."""
    with pytest.raises(UsageError, match=r"is not name=value\n.*--set code"):
        parse_values([text])
