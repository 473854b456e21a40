"""The keys of [feed.NAME] that would read a file."""

from __future__ import annotations

from pathlib import Path

import polars as pl
from feed_rows import VIN, plant, rows

from eol.feeds.foreign_columns import sent_columns
from eol.feeds.guess_mapping import Guess, constants, own_keys, sections
from eol.feeds.placing import best_placing


def guess(text: str, name: str = "water_1.csv.gz") -> Guess:
    """What is known of a file of the plant of these tests."""
    frame: pl.DataFrame = rows(text)
    sent = sent_columns(frame, zone="UTC")
    placing = best_placing(sent, plant(), file_name=name)
    assert placing is not None
    return Guess(Path(name), placing, sent, plant(), None, None)


def test_file_in_own_columns_needs_next_to_nothing() -> None:
    """Names, times and words of the tool need no line; the packing is no part of the pattern."""
    own = guess(f"vin,station,started_at,result\n{VIN},W1,2026-09-08 06:00,pass")
    assert own_keys(own) == {"files": "water_*.csv"}
    assert [name for name, values in sections(own) if values] == []


def test_station_that_no_column_gives() -> None:
    """The declared station of the test stands in."""
    assert constants(guess(f"vin,start,ok\n{VIN},2026-09-08 06:00,OK")) == {"station": "W1"}


def test_decimal_comma_is_told_by_what_is_read_as_a_number() -> None:
    """A comma in a text is none."""
    text = "vin,start,ok,pressure,note\n" + VIN + ',2026-09-08 06:00,OK,{},"1,5"'
    assert "decimal" not in own_keys(guess(text.format("2.5")))
    assert own_keys(guess(text.format('"2,5"')))["decimal"] == ","
