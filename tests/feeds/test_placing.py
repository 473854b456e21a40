"""Which feed a file is like, and where its columns belong."""

from __future__ import annotations

import polars as pl
from feed_rows import VIN, plant, rows

from eol.feeds.foreign_columns import sent_columns
from eol.feeds.placing import Placing, best_placing


def placed(text: str, name: str = "file.csv") -> Placing | None:
    """The place of a file in the plant of these tests."""
    frame: pl.DataFrame = rows(text)
    return best_placing(sent_columns(frame, zone="Europe/Berlin"), plant(), file_name=name)


def names(placing: Placing | None) -> dict[str, str]:
    """By column of the tool the file's."""
    return {name: one.name for name, one in placing.sources.items()} if placing else {}


def test_own_name_goes_before_a_like_one() -> None:
    """Of two columns that may be one the likest is taken, the other has no place."""
    text = f"Zeit,started_at,vin,result\n2026-09-08 05:00,2026-09-08 06:00,{VIN},pass"
    assert names(placed(text))["started_at"] == "started_at"


def test_looks_are_held_against_names() -> None:
    """A column called time that holds words is no time; one of VINs needs no name."""
    text = f"time,x,y,status\nearly,2026-09-08 06:00,{VIN},OK"
    assert names(placed(text)) == {"vin": "y", "started_at": "x", "result": "status"}


def test_times_of_another_format_are_left_out() -> None:
    """A feed has one time format: the needed time keeps it."""
    text = f"vin,start,ende,result\n{VIN},08.09.2026 06:00:00,2026/09/08 06:04,OK"
    assert "ended_at" not in names(placed(text))


def test_test_is_told_by_name_station_or_condition() -> None:
    """The file's name, a declared station or a condition's name speak for a test."""
    run = "vin,start,result{}\n" + VIN + ",2026-09-08 06:00,OK{}"
    bare, by_station = run.format("", ""), run.format(",bench", ",W1")
    by_condition = run.format(",pressure", ",250")
    told = [
        placed(bare, "electrical_1.csv"),
        placed(by_station),
        placed(by_condition),
        placed(bare, "water.csv"),
    ]
    assert [one.test for one in told if one] == ["electrical", "water", "water", "water"]


def test_nothing_fits() -> None:
    """A file without what any feed needs has no place."""
    assert placed("dish,price\nsoup,3") is None
