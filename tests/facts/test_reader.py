"""Rows as the facts take them."""

from __future__ import annotations

import polars as pl

from eol.facts.reader import rows, total, whole


def test_rows_keep_order_and_nulls() -> None:
    """A frame becomes dicts in its own order; null is None."""
    frame = pl.DataFrame({"code": ["B", "A"], "defects": [2, None]})
    assert rows(frame) == [{"code": "B", "defects": 2}, {"code": "A", "defects": None}]


def test_null_counts_nothing() -> None:
    """A count that is null adds nothing."""
    assert (whole(None), total([1, None, 2])) == (0, 3)
