"""An answer as a file: CSV, Parquet, JSON or XLSX by its suffix; nothing in it that a spreadsheet would run."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import polars as pl
import polars.selectors as cs
import xlsxwriter

from eol.errors import StoreError, UsageError

_RUNS = "=+-@\t\r\n"
"""What a text begins with that a spreadsheet takes for a formula."""

_SHEET_ROWS = 1_048_575
_SHEET_TEXT = 32_767
_EXACT = 2**53


def write_answer(frame: pl.DataFrame, path: Path) -> Path:
    """Write an answer; a file that is there is replaced whole.

    Args:
        frame: the answer.
        path: `.csv`, `.parquet`, `.json` (an array of rows), `.jsonl` (a row a line) or `.xlsx`.

    Returns:
        The path.

    Raises:
        UsageError: the suffix is none of these, or the sheet has not enough rows.
        StoreError: the file cannot be written.
    """
    writer = _WRITERS.get(path.suffix.lower())
    if writer is None:
        raise UsageError(
            f"an answer cannot be written as '{path.suffix or path.name}'",
            where=str(path),
            hint="Name a file that ends in " + ", ".join(_WRITERS) + ".",
        )
    fresh = path.with_name(f".{path.name}.part")
    try:
        writer(frame, fresh)
        fresh.replace(path)
    except OSError as error:
        raise StoreError(
            f"the file cannot be written: {error.strerror}",
            where=str(path),
            hint="Name a folder that is there and that you may write to.",
        ) from error
    finally:
        fresh.unlink(missing_ok=True)
    return path


def csv_text(frame: pl.DataFrame) -> str:
    """Return an answer as CSV; a text that a spreadsheet would run has an apostrophe before it."""
    flat = _flat(frame)
    zoned = all(getattr(kind, "time_zone", "UTC") for kind in flat.schema.values())
    # A time without a zone has no offset to write.
    return harmless(flat).write_csv(datetime_format="%Y-%m-%dT%H:%M:%S%.f" + "%:z" * zoned)


def harmless(frame: pl.DataFrame) -> pl.DataFrame:
    """Put an apostrophe before texts, column names too, that a spreadsheet would take for a formula."""
    texts = [name for name, kind in frame.schema.items() if kind == pl.String]
    marked = frame.with_columns(
        pl.when(cs.by_name(name).str.contains(f"^[{_RUNS}]".replace("-", r"\-")))
        .then(pl.lit("'") + cs.by_name(name))
        .otherwise(cs.by_name(name))
        .alias(name)
        for name in texts
    )
    return marked.rename({name: f"'{name}" for name in frame.columns if name[:1] in tuple(_RUNS)})


def _flat(frame: pl.DataFrame) -> pl.DataFrame:
    """Lists and structures as JSON text: a sheet or CSV has no place for them."""
    nested = [name for name, kind in frame.schema.items() if kind.is_nested()]
    columns = [
        pl.Series(name, [None if v is None else _json(v) for v in frame[name].to_list()], pl.String)
        for name in nested
    ]
    return frame.with_columns(*columns, cs.binary().bin.encode("hex"))


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, default=json_value)


def json_value(value: object) -> object:
    """Return a value as JSON knows it: times in ISO 8601, decimals as numbers."""
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, bytes):
        return value.hex()
    return value.to_list() if isinstance(value, pl.Series) else str(value)


def _finite(frame: pl.DataFrame) -> pl.DataFrame:
    """Null for what JSON has no number for."""
    return frame.with_columns(pl.when(cs.float().is_finite()).then(cs.float()))


def _write_csv(frame: pl.DataFrame, path: Path) -> None:
    path.write_text(csv_text(frame), encoding="utf-8", newline="")


def _write_parquet(frame: pl.DataFrame, path: Path) -> None:
    frame.write_parquet(path, compression="zstd")


def _write_json(frame: pl.DataFrame, path: Path) -> None:
    rows = [_json(row) for row in _finite(frame).iter_rows(named=True)]
    path.write_text("[" + ",\n ".join(rows) + "]\n", encoding="utf-8")


def _write_lines(frame: pl.DataFrame, path: Path) -> None:
    path.write_text(
        "".join(_json(row) + "\n" for row in _finite(frame).iter_rows(named=True)),
        encoding="utf-8",
    )


def _write_xlsx(frame: pl.DataFrame, path: Path) -> None:
    if frame.height > _SHEET_ROWS:
        raise UsageError(
            f"a sheet holds {_SHEET_ROWS} rows, the answer has {frame.height}",
            where=str(path),
            hint="Write it as .parquet or .csv, or ask for less.",
        )
    # Rows go to the file as they are written; times in UTC, for a sheet has no zones.
    options = {"constant_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    with xlsxwriter.Workbook(str(path), options) as book:
        sheet = book.add_worksheet("answer")
        sheet.freeze_panes(1, 0)
        forms: dict[type, Any] = {
            datetime: book.add_format({"num_format": "yyyy-mm-dd hh:mm:ss"}),
            date: book.add_format({"num_format": "yyyy-mm-dd"}),
        }
        for column, name in enumerate(frame.columns):
            sheet.write_string(0, column, name)
        for number, row in enumerate(_flat(frame).iter_rows(), start=1):
            for column, value in enumerate(row):
                _write_cell(sheet, number, column, value, forms)


def _write_cell(sheet: Any, row: int, column: int, value: object, forms: dict[type, Any]) -> None:
    """Write one cell by its type; a text is always a text, whatever it begins with."""
    if value is None:
        return
    if isinstance(value, bool):
        sheet.write_boolean(row, column, value)
    elif isinstance(value, int | float | Decimal) and -_EXACT < value < _EXACT:
        sheet.write_number(row, column, float(value))
    elif isinstance(value, datetime):
        moment = value.astimezone(UTC).replace(tzinfo=None) if value.tzinfo else value
        sheet.write_datetime(row, column, moment, forms[datetime])
    elif isinstance(value, date):
        sheet.write_datetime(row, column, value, forms[date])
    elif isinstance(value, timedelta):
        sheet.write_number(row, column, value.total_seconds())
    else:
        sheet.write_string(row, column, str(value)[:_SHEET_TEXT])


_WRITERS: dict[str, Callable[[pl.DataFrame, Path], None]] = {
    ".csv": _write_csv,
    ".parquet": _write_parquet,
    ".json": _write_json,
    ".jsonl": _write_lines,
    ".xlsx": _write_xlsx,
}
