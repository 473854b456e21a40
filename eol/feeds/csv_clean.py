"""Clean delimited text through polars' own reader, proved clean by an account of its bytes."""

from __future__ import annotations

import numpy as np
import polars as pl
import polars.selectors as cs

from eol.feeds.csv_head import Head
from eol.feeds.csv_quotes import BLOCK_BYTES, sound_quotes
from eol.feeds.hushed import hushed

_TAB, _LINE_FEED, _RETURN = b"\t\n\r"
_CONTROLS = 32  # bytes below it


def read_clean(data: bytes, head: Head) -> pl.DataFrame | None:
    """Read with polars' own reader.

    Args:
        data: the file in UTF-8.
        head: what its top tells.

    Returns:
        The rows as text, an empty cell null; None where the file is not clean and must be read
        record by record.
    """
    if len(data) <= head.body:
        return no_rows(head)
    try:
        with hushed():
            frame = polars_csv(data, head)
    except (pl.exceptions.PolarsError, pl.exceptions.PanicException):
        return None
    if not _accounted(data, head, frame):
        return None
    return empty_to_null(frame) if b'"' in data else frame


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


def empty_to_null(frame: pl.DataFrame) -> pl.DataFrame:
    """Make a quoted empty cell null, like one without quotes."""
    found = frame.select((pl.all() == "").any()).row(0)
    columns = [name for name, empty in zip(frame.columns, found, strict=True) if empty]
    return frame.with_columns(
        pl.when(cs.by_name(name) != "").then(cs.by_name(name)).alias(name) for name in columns
    )


def no_rows(head: Head) -> pl.DataFrame:
    """Return a frame with the columns of the header and no row."""
    return pl.DataFrame(schema=dict.fromkeys(head.names, pl.String))


def _accounted(data: bytes, head: Head, frame: pl.DataFrame) -> bool:
    """Tell whether cells, delimiters, line ends and quotes add up to the bytes of the body.

    Each row with too few cells, each blank line and each line with another end leaves the sum too
    large, never too small: none hides another.
    """
    if data.endswith(head.delimiter.encode()):  # polars may drop a last empty cell
        return False
    quotes = sound_quotes(data, head)
    if quotes is None or not _text_only(data, head, quoted=quotes > 0):
        return False
    line_ends = frame.height - (not data.endswith(head.line_end.encode()))
    delimiters = (frame.width - 1) * frame.height
    cells = _sum(frame, pl.all().str.len_bytes())
    expected = cells + delimiters + line_ends * len(head.line_end) + quotes
    missing = expected - (len(data) - head.body)
    if missing and quotes:  # a doubled quote is two in the file and one in its cell
        missing -= _sum(frame, pl.all().str.count_matches('"', literal=True))
    return missing == 0


def _text_only(data: bytes, head: Head, *, quoted: bool) -> bool:
    """Tell whether all lines end alike and no other control character but the tab is there."""
    returns, feeds = _count(data, head, _RETURN), _count(data, head, _LINE_FEED)
    even = {"\n": returns == 0, "\r\n": returns == feeds, "\r": feeds == 0}[head.line_end]
    if head.line_end == "\r\n" and quoted:  # a lone one of each could make the counts agree
        even = even and _paired(data, head)
    controls = _count(data, head, _CONTROLS, below=True)
    return even and controls == returns + feeds + _count(data, head, _TAB)


def _paired(data: bytes, head: Head) -> bool:
    """Tell whether a return stands before each line feed."""
    values = np.frombuffer(data, dtype=np.uint8)
    for start in range(head.body, len(values), BLOCK_BYTES):
        feeds = np.flatnonzero(values[start : start + BLOCK_BYTES] == _LINE_FEED) + start
        if (values[feeds - 1] != _RETURN).any():
            return False
    return True


def _count(data: bytes, head: Head, value: int, *, below: bool = False) -> int:
    """Count the bytes of the body that equal a value or lie below it, block by block."""
    if not below and bytes([value]) not in data:  # the fastest look there is
        return 0
    body = np.frombuffer(data, dtype=np.uint8)[head.body :]
    blocks = (body[start : start + BLOCK_BYTES] for start in range(0, len(body), BLOCK_BYTES))
    return sum(
        int(np.count_nonzero(block < value if below else block == value)) for block in blocks
    )


def _sum(frame: pl.DataFrame, counts: pl.Expr) -> int:
    """Add up a count over all cells."""
    return sum(frame.select(counts.cast(pl.Int64).sum()).row(0))
