"""What the columns of a foreign file look like."""

from __future__ import annotations

from datetime import date, datetime

import polars as pl
import pytest
from feed_rows import OTHER_VIN, VIN

from eol.feeds.foreign_columns import Looks, sent_columns


@pytest.mark.parametrize(
    ("cells", "looks"),
    [
        ([VIN, OTHER_VIN.lower()], Looks.VIN),
        (["08.09.2026 06:00"], Looks.TIME),
        ([datetime(2026, 9, 8, 6)], Looks.TIME),
        ([date(2026, 9, 8)], Looks.DATE),
        (["06:00:00"], Looks.CLOCK),
        (["2,5", "3"], Looks.NUMBER),
        ([2.5, 3.0], Looks.NUMBER),
        (["rot"], Looks.TEXT),
        ([None, " "], Looks.NOTHING),
        ([["a"]], Looks.NOTHING),
    ],
)
def test_looks(cells: list[object], looks: Looks) -> None:
    """Text and the types of Parquet are told alike."""
    [column] = sent_columns(pl.DataFrame({"a": cells}, strict=False), zone="UTC")
    assert column.looks is looks


def test_date_and_time_of_day_are_one_time() -> None:
    """Each time of day goes with the date before it; ISO 8601 in two parts needs no format."""
    frame = pl.DataFrame({"day": ["2026-09-08"], "from": ["06:00"], "to": ["06:05"]})
    joined = [column for column in sent_columns(frame, zone="UTC") if len(column.names) > 1]
    assert [column.names for column in joined] == [("day", "from"), ("day", "to")]
    assert [column.form for column in joined] == ["", ""]


def test_words_for_results() -> None:
    """A column of results is known by its words; noughts and ones alone may be anything."""
    frame = pl.DataFrame({"x": ["OK", "n.i.O."], "y": ["0", "1"], "z": ["OK", "red"]})
    assert [c.tells_results() for c in sent_columns(frame, zone="UTC")] == [True, False, False]
