"""What a file gives."""

from __future__ import annotations

import pytest
from feed_rows import parsed

from eol.feeds.batch import REJECTED_SCHEMA
from eol.words import counted


@pytest.mark.parametrize(("number", "words"), [(0, "0 rows"), (1, "1 row"), (2, "2 rows")])
def test_counted(number: int, words: str) -> None:
    """One is one."""
    assert counted(number, "row") == words


def test_rejected_rows_have_their_columns_also_without_a_row() -> None:
    """The store can rely on names and types."""
    for text in ("vin,at,kind", "vin,at,kind\nX,,"):
        assert parsed("events", text).rejected.schema == REJECTED_SCHEMA
