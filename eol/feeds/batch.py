"""What a file gives: tables of accepted rows, the rows refused, and what was settled on the way.

All frames of `tables` have the store's names and types: times Datetime("us", "UTC"), whole numbers
Int64, text String; each ends in file_row. Where plant.toml names a feed's units by a unit key
(`named_by`), the rows accepted have the VIN that the key names, and the others wait among the rejected.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import polars as pl

REJECTED_SCHEMA = {
    "file_row": pl.Int64,
    "reason": pl.String,
    "waits_for": pl.String,
    "raw": pl.String,
}


KEYED_SCHEMA: dict[str, pl.DataType | type[pl.DataType]] = {
    "file_row": pl.Int64,
    "key": pl.String,
    "at": pl.Datetime("us", "UTC"),
    "vin": pl.String,
    "raw": pl.String,
}


@dataclass(frozen=True, slots=True)
class Tables:
    """Accepted rows as tables of the store, and what was settled without refusing a row."""

    frames: dict[str, pl.DataFrame]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RowBatch:
    """Rows of one feed, parsed.

    Attributes:
        feed: name of the feed; kind: what its rows are; test: the test they tell of, or None.
        rows: data rows that came, refused ones included.
        tables: by table the accepted rows, as sent.
        rejected: file_row, reason, waits_for (null; of a row that waits for a unit key the key,
            as "skid=123"), raw (the row as a JSON object).
        keyed: file_row, key, at (UTC), vin and raw of the accepted rows that a unit key named.
        notes: sentences about what was settled or left out without refusing a row.
    """

    feed: str
    kind: str
    test: str | None
    rows: int
    tables: dict[str, pl.DataFrame]
    rejected: pl.DataFrame
    keyed: pl.DataFrame
    notes: tuple[str, ...]

    @property
    def refused(self) -> pl.DataFrame:
        """The rejected rows that have a fault."""
        return self.rejected.filter(pl.col("waits_for").is_null())

    @property
    def waiting(self) -> pl.DataFrame:
        """The rejected rows that wait for a unit key (rule 17)."""
        return self.rejected.filter(pl.col("waits_for").is_not_null())

    @property
    def reasons(self) -> tuple[tuple[str, int], ...]:
        """Why rows were refused, with their number, the most frequent first."""
        if self.rejected.is_empty():
            return ()
        counts = self.refused.group_by("reason").len()
        return tuple(counts.sort("len", "reason", descending=[True, False]).iter_rows())


@dataclass(frozen=True, slots=True)
class FileBatch(RowBatch):
    """A file, parsed: its rows, and what names the file.

    Attributes:
        path: where it lay; sha256: of its bytes, lower-case hexadecimal; size: in bytes.
        made_at: when it was made, UTC (rule 1).
    """

    path: Path
    sha256: str
    size: int
    made_at: datetime


@dataclass(frozen=True, slots=True)
class Explanation:
    """How a file is understood, with nothing loaded.

    Attributes:
        batch: the file as it would load.
        mapping: one line a column: where it comes from and how it is read.
        first: by table the first rows as they would load.
        reasons: `reason` and `rows`: how many rows would be rejected, cells left out of the reason.
    """

    batch: FileBatch
    mapping: tuple[str, ...]
    first: dict[str, pl.DataFrame]
    reasons: pl.DataFrame
