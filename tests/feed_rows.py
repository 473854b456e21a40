"""Rows of feeds as text, and the plant that sends them: what the tests of eol.feeds share."""

from __future__ import annotations

import csv
from datetime import UTC, datetime
from io import StringIO

import polars as pl
from hypothesis import settings

from eol.feeds.batch import RowBatch
from eol.feeds.feed import Feed, open_feed
from eol.feeds.parse import parse_rows
from eol.plant.settings import Settings, parse_settings

NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)
VIN = "0ZZK0000000000001"
OTHER_VIN = "0ZZK0000000000002"

STEADY = settings(deadline=None, derandomize=True, max_examples=60)
"""Property tests run the same each time, however busy the machine."""

PLANT = """
[plant]
name = "Quillbrook"
timezone = "Europe/Berlin"
starts_on = 2026-01-01

[[shift]]
name = "day"
starts = "06:00"
ends = "14:30"

[test.water]
length = 240
[[test.water.condition]]
name = "pressure_kpa"
lower = 220
upper = 280
measure_unit = "kPa"

[test.electrical]

[[station]]
name = "W1"
test = "water"
bays = ["A", "B"]
bay_alias = { "1" = "A" }
"""


def plant(more: str = "") -> Settings:
    """The plant of these tests, with further sections of plant.toml."""
    return parse_settings(PLANT + more)


def rows(text: str) -> pl.DataFrame:
    """Rows as a file's reader gives them: the first line names the columns, empty cells are null."""
    names, *lines = csv.reader(StringIO(text.strip()))
    cells = [[cell or None for cell in line] for line in lines]
    frame = pl.DataFrame(cells, schema=dict.fromkeys(names, pl.String), orient="row")
    return frame.with_columns(pl.int_range(1, pl.len() + 1, dtype=pl.Int64).alias("file_row"))


def opened(name: str, more: str = "") -> Feed:
    """A feed of the plant."""
    return open_feed(name, plant(more), now=NOW, pseudonym=pseudonym)


def parsed(name: str, text: str, more: str = "") -> RowBatch:
    """Rows of a feed, parsed."""
    return parse_rows(name, rows(text), plant(more), now=NOW, pseudonym=pseudonym)


def reasons(batch: RowBatch) -> list[str]:
    """Why rows were refused, in their order."""
    return batch.rejected["reason"].to_list()


def pseudonym(person: str) -> str:
    """A stand-in for the keyed pseudonym: it shows that it was asked."""
    return person if person.startswith("p-") else f"p-{person.lower()}"


def utc(text: str) -> datetime:
    """A time in UTC."""
    return datetime.fromisoformat(text).replace(tzinfo=UTC)
