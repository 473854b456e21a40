"""What names a unit and a run."""

from __future__ import annotations

import polars as pl
from feed_rows import NOW, VIN, opened

from eol.feeds.naming import RUN_KEY, repeated, selected, with_run_key, with_unit_key

SKID = '[feed.water]\nnamed_by = "skid"\n'


def rows(**cells: object) -> pl.DataFrame:
    """One typed row."""
    base = {
        "vin": VIN,
        "station": "W1",
        "run_ref": None,
        "started_at": NOW,
        "skid": None,
        "file_row": 1,
    }
    return pl.DataFrame([base | cells])


def test_run_is_named_by_unit_and_second() -> None:
    """Without run_ref: unit, station and start to the second (rule 1)."""
    keyed = with_run_key(rows(started_at=NOW.replace(microsecond=999_999)), opened("water"))
    assert keyed.select(RUN_KEY).row(0) == ("W1", None, VIN, int(NOW.timestamp()))


def test_run_ref_stands_alone() -> None:
    """With run_ref neither unit nor start matters (rule 1)."""
    keyed = with_run_key(rows(run_ref="7"), opened("water"))
    assert keyed.select(RUN_KEY).row(0) == ("W1", "7", None, None)


def test_key_stands_in_for_a_missing_vin() -> None:
    """The VIN goes first where it was sent."""
    feed = opened("water", SKID)
    with_vin = with_unit_key(rows(skid="12"), feed)
    without = with_unit_key(rows(vin=None, skid="12"), feed)
    assert with_vin.select("key_kind", "key_value").row(0) == (None, None)
    assert without.select("key_kind", "key_value").row(0) == ("skid", "12")
    assert with_run_key(without, feed)["eol.unit"].to_list() == ["12"]


def test_table_carries_the_key_only_where_units_are_so_named() -> None:
    """A feed named by VIN has no columns of keys."""
    assert selected(rows(), ("vin",), opened("water")).columns == ["vin", "file_row"]
    keyed = with_unit_key(rows(), opened("water", SKID))
    table = selected(keyed, ("vin",), opened("water", SKID))
    assert table.columns == ["vin", "file_row", "key_kind", "key_value"]


def test_repeated() -> None:
    """Rows that share their key are marked, null like any value."""
    frame = pl.DataFrame({"a": [1, 1, None, None, 2], "b": ["x", "x", "y", "y", "x"]})
    assert repeated(frame, ("a", "b")).to_list() == [True, True, True, True, False]
