"""Delimited text record by record: good rows are kept, each other is refused with its reason."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt
import polars as pl

from eol.feeds.csv_clean import empty_to_null, no_rows, polars_csv
from eol.feeds.csv_head import Head
from eol.feeds.csv_lines import find_lines
from eol.feeds.csv_scan import Record, scan_records
from eol.feeds.encoding import REPLACEMENT, Text
from eol.feeds.raw import FILE_ROW, Refusal, raw_json, raw_line, refused_frame
from eol.feeds.tidy import is_totals_row

CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
"""Characters that no text holds: a row with one of them was damaged on its way."""


def read_careful(text: Text, head: Head) -> tuple[pl.DataFrame, pl.DataFrame]:
    """Read the rows, each that cannot be read refused by itself.

    Plain lines are taken in runs; the others are read cell by cell. Good rows are written out
    clean and go through polars' reader.

    Returns:
        The rows as text with `file_row`, and the refused rows.
    """
    body = text.data[head.body :]
    letters = body.decode("latin-1")  # a letter a byte, so that positions are the same in both
    lines = find_lines(body, head.delimiter, len(head.names), lossy=text.lossy)
    good, refusals = _Good(), list[Refusal]()
    line = rows = 0
    for special in lines.special.tolist():
        if special < line:  # inside a quoted cell that has been read
            continue
        if special > line:
            good.add(body[lines.starts[line] : lines.starts[special]], rows, special - line)
        rows += special - line
        record = next(scan_records(letters, head.delimiter, int(lines.starts[special])))
        line = lines.line_at(record.end, guess=special + 1)
        if _is_blank(record, head):
            continue
        record = _as_sent(_widened_totals(record, head, last=record.end == len(body)))
        reason = _fault(record, head, text)
        if reason:
            refusals.append(Refusal(rows + 1, reason, _raw(record, head)))
        else:
            good.add(_written(record, head.delimiter).encode() + b"\n", rows, 1)
        rows += 1
    return good.frame(head), refused_frame(refusals)


@dataclass
class _Good:
    """Good rows on their way into a frame: their text, written clean, and how they are counted."""

    pieces: list[bytes] = field(default_factory=list)
    before: list[int] = field(default_factory=list)
    counts: list[int] = field(default_factory=list)

    def add(self, piece: bytes, before: int, count: int) -> None:
        """Add the text of `count` rows behind the `before` rows of the file."""
        self.pieces.append(piece)
        self.before.append(before)
        self.counts.append(count)

    def frame(self, head: Head) -> pl.DataFrame:
        """Read what was gathered."""
        if not self.pieces:
            return no_rows(head).with_columns(pl.lit(None, pl.Int64).alias(FILE_ROW))
        written = polars_csv(b"".join(self.pieces), replace(head, line_end="\n", body=0))
        return empty_to_null(written).with_columns(pl.Series(FILE_ROW, self._numbers()))

    def _numbers(self) -> npt.NDArray[np.int64]:
        counts: npt.NDArray[np.int64] = np.array(self.counts, dtype=np.int64)
        skipped = np.array(self.before, dtype=np.int64) - (np.cumsum(counts) - counts)
        numbers: npt.NDArray[np.int64] = np.arange(1, counts.sum() + 1, dtype=np.int64)
        numbers += np.repeat(skipped, counts)
        return numbers


def _as_sent(record: Record) -> Record:
    """Turn bytes that were read as letters back into text."""
    if record.text.isascii():
        return record
    cells = record.cells and tuple(_text(cell) for cell in record.cells)
    return record._replace(text=_text(record.text), cells=cells)


def _text(letters: str) -> str:
    return letters if letters.isascii() else letters.encode("latin-1").decode("utf-8")


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
    if not record.bare:
        return record.text
    return delimiter.join(_quoted(cell, delimiter) for cell in record.cells or ())


def _quoted(cell: str, delimiter: str) -> str:
    special = any(character in cell for character in (delimiter, '"', "\n", "\r"))
    return '"' + cell.replace('"', '""') + '"' if special else cell
