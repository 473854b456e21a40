"""Rows named by a unit key: the VIN of their own time, or a wait (rule 17)."""

from __future__ import annotations

from datetime import datetime

import polars as pl
import pytest
from feed_rows import NOW, OTHER_VIN, VIN, plant, reasons, rows, utc

from eol.feeds.batch import RowBatch
from eol.feeds.feed import open_feed
from eol.feeds.parse import count_reasons, parse_rows
from eol.feeds.unit_keys import KEYS_SCHEMA
from eol.plant.settings import feed_names

SIX, SEVEN = utc("2026-09-08T06:00"), utc("2026-09-08T07:00")
OF_NO_UNIT = {
    "unit_keys",
    "defect_codes",
    "zones",
    "countermeasures",
    "lots",
    "corrections",
    "shifts",
}
Key = tuple[str, str, str, datetime | None, datetime | None]


def named(name: str, text: str, *keys: Key, more: str = "") -> RowBatch:
    """Rows of a feed whose units are named by skid, UTC, with the keys known."""
    settings = plant(f'[feed.{name}]\nnamed_by = "skid"\ntimezone = "+00:00"\n{more}')
    frame = pl.DataFrame(list(keys), schema=KEYS_SCHEMA, orient="row")
    return parse_rows(name, rows(text), settings, now=NOW, unit_keys=frame)


def vins(batch: RowBatch, table: str = "run") -> list[str | None]:
    """The VINs of a table."""
    return batch.tables[table]["vin"].to_list()


def water(clock: str, skid: str = "12", vin: str = "") -> str:
    """One run of the water test."""
    return f"skid,vin,station,started_at,result\n{skid},{vin},W1,2026-09-08 {clock},pass"


def test_key_gives_the_vin() -> None:
    """A key that holds for ever names the unit; no column of the key is left."""
    batch = named("water", water("06:00"), ("skid", "12", VIN, None, None))
    assert vins(batch) == [VIN]
    assert "skid" not in batch.tables["run"].columns


@pytest.mark.parametrize(
    ("clock", "vin"),
    [("05:59:59", None), ("06:00", VIN), ("06:59:59", VIN), ("07:00", OTHER_VIN), ("08:00", None)],
)
def test_key_is_asked_for_at_the_time_of_the_row(clock: str, vin: str | None) -> None:
    """A skid carries one unit after the other; its windows are half open."""
    first: Key = ("skid", "12", VIN, SIX, SEVEN)
    second: Key = ("skid", "12", OTHER_VIN, SEVEN, utc("2026-09-08T08:00"))
    batch = named("water", water(clock), first, second)
    assert vins(batch) == ([vin] if vin else [])
    assert batch.rejected.height == (0 if vin else 1)


def test_last_key_that_had_begun_decides() -> None:
    """A key whose end was never sent ends where the next one of its name begins."""
    keys: list[Key] = [("skid", "12", OTHER_VIN, SEVEN, None), ("skid", "12", VIN, SIX, None)]
    assert vins(named("water", water("06:59"), *keys)) == [VIN]
    assert vins(named("water", water("07:00"), *keys)) == [OTHER_VIN]


def test_unknown_key_waits() -> None:
    """A row whose key is not known is kept, and says what it waits for."""
    batch = named("water", water("06:00"), ("skid", "13", VIN, None, None))
    assert batch.tables["run"].is_empty()
    [row] = batch.rejected.rows(named=True)
    assert (row["file_row"], row["waits_for"]) == (1, "skid=12")
    assert row["reason"] == (
        "waits for the unit key skid 12; it is tried again when the feed unit_keys brings it"
    )
    assert count_reasons(batch.rejected)["reason"].to_list() == ["waits for the unit key skid …"]


def test_no_keys_at_all() -> None:
    """Before the first key every row waits; one of another kind is none."""
    assert named("water", water("06:00")).rejected["waits_for"].to_list() == ["skid=12"]
    other = named("water", water("06:00"), ("body", "12", VIN, None, None))
    assert other.rejected["waits_for"].to_list() == ["skid=12"]


def test_vin_in_the_row_goes_first() -> None:
    """A row with both is of the VIN."""
    assert vins(named("water", water("06:00", vin=VIN), ("skid", "12", OTHER_VIN, None, None))) == [
        VIN
    ]


def test_faulty_row_does_not_wait() -> None:
    """A row that is refused for another reason says that reason alone."""
    batch = named("water", water("06:00").replace("pass", "good"))
    assert batch.rejected["waits_for"].to_list() == [None]
    assert "'good' is not one of" in reasons(batch)[0]


def test_clock_of_the_station_is_set_right_first() -> None:
    """A bench eleven minutes behind asks for the unit of its true time."""
    slow = '[[clock_offset]]\nstation = "W1"\nvalid_from = 2026-09-08\nseconds = 660\n'
    keys: list[Key] = [("skid", "12", VIN, SIX, SEVEN), ("skid", "12", OTHER_VIN, SEVEN, None)]
    assert vins(named("water", water("06:50"), *keys, more=slow)) == [OTHER_VIN]
    assert vins(named("water", water("06:48"), *keys, more=slow)) == [VIN]


def test_row_without_a_time_takes_the_newest() -> None:
    """An option of a unit holds whenever it is told."""
    text = "skid,name,text_value\n12,roof,fixed"
    keys: list[Key] = [("skid", "12", VIN, SIX, SEVEN), ("skid", "12", OTHER_VIN, SEVEN, None)]
    assert vins(named("attributes", text, *keys), "attribute") == [OTHER_VIN]


def test_two_units_at_one_time_are_two_runs() -> None:
    """Runs are told apart by the units that their keys name (rule 1)."""
    text = water("06:00") + "\n13,,W1,2026-09-08 06:00,pass"
    keys: list[Key] = [("skid", "12", VIN, None, None), ("skid", "13", OTHER_VIN, None, None)]
    assert sorted(str(vin) for vin in vins(named("water", text, *keys))) == [VIN, OTHER_VIN]


def test_finding_with_run_ref_needs_no_unit() -> None:
    """A finding that names its run never waits for a key."""
    text = "skid,station,run_ref,started_at,code\n12,W1,7,,LEAK\n12,W1,,2026-09-08 06:00,LEAK"
    batch = named("water_findings", text)
    assert batch.tables["finding"]["run_ref"].to_list() == ["7"]
    assert batch.rejected["file_row"].to_list() == [2]


def test_attribute_may_have_any_name() -> None:
    """What is added on the way gets in no attribute's way."""
    text = "skid,found,since,value,until,at\n12,a,b,c,d,e"
    table = named("units", text, ("skid", "12", VIN, None, None)).tables["attribute"]
    assert table["text_value"].to_list() == ["a", "b", "c", "d", "e"]
    assert set(table["vin"]) == {VIN}


@pytest.mark.parametrize("name", feed_names(plant().tests))
def test_feed_of_no_unit_leaves_named_by_aside(name: str) -> None:
    """A catalogue has no units to name; whatever else is said there is no stumbling block."""
    feed = open_feed(name, plant(f'[feed.{name}]\nnamed_by = "station"\n'))
    names = [column.name for column in feed.columns]
    assert len(names) == len(set(names))
    assert (feed.key_kind is None) == (name in OF_NO_UNIT)
