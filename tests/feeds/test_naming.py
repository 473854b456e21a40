"""What names a run."""

from __future__ import annotations

import polars as pl
from feed_rows import NOW, VIN

from eol.feeds.naming import RUN_KEY, repeated, selected, with_run_key


def rows(**cells: object) -> pl.DataFrame:
    """One typed row."""
    base = {
        "vin": VIN,
        "station": "W1",
        "run_ref": None,
        "started_at": NOW,
        "file_row": 1,
    }
    return pl.DataFrame([base | cells])


def test_run_is_named_by_unit_and_second() -> None:
    """Without run_ref: unit, station and start to the second (rule 1)."""
    keyed = with_run_key(rows(started_at=NOW.replace(microsecond=999_999)))
    assert keyed.select(RUN_KEY).row(0) == ("W1", None, VIN, int(NOW.timestamp()))


def test_run_ref_stands_alone() -> None:
    """With run_ref neither unit nor start matters (rule 1)."""
    keyed = with_run_key(rows(run_ref="7"))
    assert keyed.select(RUN_KEY).row(0) == ("W1", "7", None, None)


def test_table_is_its_columns_and_the_row() -> None:
    """Every table ends in file_row."""
    assert selected(rows(), ("vin",)).rows() == [(VIN, 1)]


def test_repeated() -> None:
    """Rows that share their key are marked, null like any value."""
    frame = pl.DataFrame({"a": [1, 1, None, None, 2], "b": ["x", "x", "y", "y", "x"]})
    assert repeated(frame, ("a", "b")).to_list() == [True, True, True, True, False]
