"""Clean delimited text through polars' own reader, proved clean by an account of its bytes."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import polars as pl

from eol.feeds.csv_head import Head

_BLOCK_BYTES = 1 << 20
_LINE_FEED, _RETURN, _TAB = 10, 13, 9


def read_clean(data: bytes, head: Head) -> pl.DataFrame | None:
    """Read with polars' own reader; None where the file is not clean."""
    if len(data) <= head.body:
        return no_rows(head)
    try:
        frame = polars_csv(data, head)
    except (pl.exceptions.PolarsError, pl.exceptions.PanicException):
        return None
    if not _accounted(data, head, frame):
        return None
    return _quoted_empty_to_null(frame) if b'""' in data else frame


def polars_csv(data: bytes, head: Head) -> pl.DataFrame:
    """Read the rows below the header as text; polars raises where a row has too many cells."""
    line_end = head.line_end[-1]
    return pl.read_csv(
        data,
        has_header=False,
        schema=dict.fromkeys(head.names, pl.String),
        separator=head.delimiter,
        eol_char=line_end,
        skip_lines=data.count(line_end.encode(), 0, head.body),
    )


def _accounted(data: bytes, head: Head, frame: pl.DataFrame) -> bool:
    """Tell whether cells, delimiters, line ends and quotes add up to the bytes of the body.

    Each row with too few cells, each blank line, each line with another end and each quote that
    encloses nothing leaves the sum too large, never too small: none hides another.
    """
    controls = _control_counts(data, head.body)
    returns, feeds = int(controls[_RETURN]), int(controls[_LINE_FEED])
    if controls.sum() > returns + feeds + controls[_TAB] or not _even_ends(head, returns, feeds):
        return False
    quotes = data.count(b'"', head.body) if b'"' in data else 0
    inner = _sum(frame, pl.all().str.count_matches('"', literal=True)) if b'""' in data else 0
    cells = _sum(frame, pl.all().str.len_bytes())
    line_ends = frame.height - (not data.endswith(head.line_end.encode()))
    expected = cells + (frame.width - 1) * frame.height + line_ends * len(head.line_end)
    return len(data) - head.body == expected + quotes - inner


def _even_ends(head: Head, returns: int, feeds: int) -> bool:
    return {"\n": returns == 0, "\r\n": returns == feeds, "\r": feeds == 0}[head.line_end]


def _control_counts(data: bytes, start: int) -> npt.NDArray[np.int64]:
    """How often each byte below 32 occurs from `start` on, block by block to spare memory."""
    counts = np.zeros(32, dtype=np.int64)
    values = np.frombuffer(data, dtype=np.uint8)
    for begin in range(start, len(values), _BLOCK_BYTES):
        block = values[begin : begin + _BLOCK_BYTES]
        counts += np.bincount(block[block < 32], minlength=32)
    return counts


def _sum(frame: pl.DataFrame, lengths: pl.Expr) -> int:
    return sum(frame.select(lengths.cast(pl.Int64).sum()).row(0)) if frame.width else 0


def _quoted_empty_to_null(frame: pl.DataFrame) -> pl.DataFrame:
    return frame.with_columns(pl.when(pl.all() != "").then(pl.all()))


def no_rows(head: Head) -> pl.DataFrame:
    """Return a frame with the columns of the header and no row."""
    return pl.DataFrame(schema=dict.fromkeys(head.names, pl.String))
