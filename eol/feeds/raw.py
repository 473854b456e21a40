"""What reading a file gives: its rows as text, the rows refused, and notes on what was skipped."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

import polars as pl

FILE_ROW = "file_row"
"""The column that counts data rows from 1 in file order, refused rows included."""

MAX_RAW = 4000
"""Characters of a line that cannot be told apart into cells which are kept beside the reason."""

REFUSED_SCHEMA = {FILE_ROW: pl.Int64, "reason": pl.String, "raw": pl.String}


@dataclass(frozen=True, slots=True)
class ReadOptions:
    """How one feed's files are to be read; what is None is found out from the file.

    Args:
        delimiter: the one character between two cells.
        encoding: a Python codec name, e.g. `cp1252`.
        decimal: the decimal sign, `.` or `,`; numbers stay text here, the mapping reads them.
        max_bytes: a larger file is refused before it is read; unpacked it may be twice as large.
    """

    delimiter: str | None = None
    encoding: str | None = None
    decimal: str = "."
    max_bytes: int = 2_000_000_000


@dataclass(frozen=True, slots=True)
class RawFile:
    """A file as sent.

    Args:
        frame: one row a data row; the file's own columns as String (Parquet: its own types), an
            empty cell is null, and `file_row`.
        refused: one row a data row that cannot be read: file_row, reason, raw (a JSON object of the
            row as far as it can be told: its cells by column, or the whole `line`).
        notes: sentences about what was skipped or guessed.
    """

    frame: pl.DataFrame
    refused: pl.DataFrame
    notes: tuple[str, ...] = ()


class Refusal(NamedTuple):
    """One refused row on its way into a frame."""

    file_row: int
    reason: str
    raw: str


def refused_frame(refusals: Iterable[Refusal] = ()) -> pl.DataFrame:
    """Return the refusals as a frame of file_row, reason, raw."""
    return pl.DataFrame(list(refusals), schema=REFUSED_SCHEMA, orient="row")


def raw_json(cells: Mapping[str, Any]) -> str:
    """Return the row as JSON text."""
    return json.dumps(cells, ensure_ascii=False)


def raw_line(line: str) -> str:
    """Return a line whose cells cannot be told, cut where it is very long, as JSON text."""
    return raw_json({"line": line if len(line) <= MAX_RAW else line[:MAX_RAW] + "…"})


def number_rows(frame: pl.DataFrame) -> pl.DataFrame:
    """Add `file_row`, counted from 1; a column of that name as sent becomes `file_row_sent`."""
    if FILE_ROW in frame.columns:
        frame = frame.rename({FILE_ROW: f"{FILE_ROW}_sent"})
    return frame.with_columns(pl.int_range(1, pl.len() + 1, dtype=pl.Int64).alias(FILE_ROW))


def same_value(value: object, length: int, dtype: pl.DataType | type[pl.DataType]) -> pl.Series:
    """Return a column that has one value, or null, in all its rows."""
    return pl.Series([value], dtype=dtype).new_from_index(0, length)


def plainly_named(sent: pl.Series) -> pl.Series:
    """Return cells without the file's name: polars takes a name like * or ^.*$ for a pattern."""
    return sent.rename("sent")
