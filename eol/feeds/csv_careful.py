"""Delimited text record by record: good rows are kept, each other is refused with its reason."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import polars as pl

from eol.feeds.csv_clean import no_rows, polars_csv
from eol.feeds.csv_head import Head
from eol.feeds.csv_scan import Record, scan_records
from eol.feeds.encoding import REPLACEMENT, Text
from eol.feeds.raw import FILE_ROW, Refusal, raw_json, raw_line, refused_frame
from eol.feeds.tidy import is_totals_row

CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
"""Characters that no text holds: a row with one of them was damaged on its way."""


def read_careful(text: Text, head: Head) -> tuple[pl.DataFrame, pl.DataFrame]:
    """Read record by record; the good rows are written out clean and go through polars' reader."""
    lines: list[str] = []
    numbers: list[int] = []
    refusals: list[Refusal] = []
    body = text.data[head.body :].decode("utf-8")
    number = 0
    for record in scan_records(body, head.delimiter):
        if _is_blank(record, head):
            continue
        number += 1
        record = _widened_totals(record, head, last=record.end == len(body))
        reason = _fault(record, head, text)
        if reason:
            refusals.append(Refusal(number, reason, _raw(record, head)))
        else:
            lines.append(_written(record, head.delimiter))
            numbers.append(number)
    rows = _parse_written(lines, head)
    return rows.with_columns(pl.Series(FILE_ROW, numbers, pl.Int64)), refused_frame(refusals)


def _is_blank(record: Record, head: Head) -> bool:
    if len(head.names) > 1 and head.delimiter not in record.text:
        return not record.text.strip()
    return not record.text.strip(head.delimiter)


def _widened_totals(record: Record, head: Head, *, last: bool) -> Record:
    """Fill up a short line of totals at the end, so that it is skipped like a whole one."""
    missing = len(head.names) - len(record.cells or head.names)
    if not last or missing <= 0 or record.cells is None:
        return record
    cells = (*record.cells, *[""] * missing)
    if not is_totals_row(cells):
        return record
    return record._replace(cells=cells, text=record.text + head.delimiter * missing)


def _fault(record: Record, head: Head, text: Text) -> str:
    """Say why a record is no row of the file; empty where it is one."""
    cells, columns = record.cells, len(head.names)
    control = CONTROL.search(record.text)
    if control:
        return f"the row holds the {_control_words(control[0])}, which is no text"
    if not record.closed and (text.padding or cells is None or len(cells) < columns):
        return "the last line is cut off"
    if cells is None:
        return "a quote opens or closes inside a cell, so the cells cannot be told apart"
    if len(cells) != columns:
        return f"the row has {len(cells)} cells where the header names {columns} columns"
    if text.lossy and REPLACEMENT in record.text:
        return f"the row holds bytes that are not {text.encoding}"
    return ""


def _control_words(character: str) -> str:
    return "NUL character" if character == "\0" else f"control character 0x{ord(character):02x}"


def _raw(record: Record, head: Head) -> str:
    """The row as far as it can be told: cells by column and a `surplus`, else the whole line."""
    if record.cells is None:
        return raw_line(record.text)
    named: dict[str, str | list[str]] = dict(zip(head.names, record.cells, strict=False))
    surplus = list(record.cells[len(head.names) :])
    return raw_json(named | {"surplus": surplus} if surplus else named)


def _written(record: Record, delimiter: str) -> str:
    """The record as strict CSV on one or, where a cell holds a line break, more lines."""
    if '"' not in record.text:
        return record.text
    return delimiter.join(_quoted(cell, delimiter) for cell in record.cells or ())


def _quoted(cell: str, delimiter: str) -> str:
    special = any(character in cell for character in (delimiter, '"', "\n", "\r"))
    return '"' + cell.replace('"', '""') + '"' if special else cell


def _parse_written(lines: Sequence[str], head: Head) -> pl.DataFrame:
    if not lines:
        return no_rows(head)
    data = ("\n".join(lines) + "\n").encode("utf-8")
    return polars_csv(data, replace(head, line_end="\n", body=0))
