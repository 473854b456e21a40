"""The top of a delimited file: comment lines, delimiter, column names, where the rows begin."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import islice

from eol.errors import FeedFileError
from eol.feeds.csv_scan import Record, scan_records
from eol.feeds.header import column_names, is_comment
from eol.feeds.raw import ReadOptions

DELIMITERS = ("\t", ";", "|", ",")
"""In the order of trust: a comma also stands in numbers and words, a tab hardly ever."""

_SAMPLE_BYTES = 1 << 18
_SAMPLE_ROWS = 50
_SEPARATOR_LINE = re.compile(r'\s*"?sep=(.)"?\s*$', re.IGNORECASE)
_LINE_END = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class Head:
    """What the top of the file tells.

    Args:
        delimiter: the one character between two cells.
        names: the column names, one a column.
        header: the header's cells as sent, to know them again.
        line_end: what ends the header's line; LF where nothing does.
        body: the byte at which the first row begins.
        notes: sentences about the lines skipped before the header.
    """

    delimiter: str
    names: tuple[str, ...]
    header: tuple[str, ...]
    line_end: str
    body: int
    notes: tuple[str, ...]


def read_head(data: bytes, options: ReadOptions, *, where: str, usual: str = ",") -> Head:
    """Read the top of a delimited file in UTF-8.

    The delimiter is the declared one, else that of a line `sep=;`, else the one under which the
    rows are most often as wide as the header, else (one column only) the usual one.

    Raises:
        FeedFileError: no header, a broken or doubled one, or a delimiter that is not one character.
    """
    sample = data[:_SAMPLE_BYTES].decode("utf-8", "ignore")
    start, declared, notes = _skip_preamble(sample)
    cut = len(data) > _SAMPLE_BYTES
    chosen = _checked(options.delimiter, where) or declared
    delimiter = chosen or _sniff(sample, start, cut=cut) or usual
    record = next(scan_records(sample, delimiter, start), Record("", (), start, True))
    if record.cells is None:
        raise FeedFileError("a quote in the header does not close", where=where)
    if cut and not record.closed:
        raise FeedFileError(f"the header does not end within {_SAMPLE_BYTES:,} bytes", where=where)
    names = column_names(record.cells, where=where)
    header_end = start + len(record.text)
    line_end = _LINE_END.match(sample, header_end)
    return Head(
        delimiter,
        tuple(names),
        record.cells,
        line_end[0] if line_end else "\n",
        len(sample[: record.end].encode("utf-8")),
        notes,
    )


def _skip_preamble(sample: str) -> tuple[int, str | None, tuple[str, ...]]:
    """Return where the header begins, the delimiter that a `sep=` line gives, and the notes."""
    start, declared, comments = 0, None, 0
    for record in scan_records(sample, "\0"):
        separator = _SEPARATOR_LINE.match(record.text)
        if separator:
            declared = separator[1]
        elif is_comment(record.text):
            comments += 1
        elif record.text.strip():
            break
        start = record.end
    notes = (f"{comments} comment lines before the header were skipped.",) if comments else ()
    return start, declared, notes


def _checked(delimiter: str | None, where: str) -> str | None:
    if delimiter is None or (
        len(delimiter) == 1 and delimiter.isascii() and delimiter not in '"\r\n'
    ):
        return delimiter
    raise FeedFileError(
        f"the delimiter {delimiter!r} is not one ASCII character",
        where=where,
        hint="Set `delimiter` of the feed to one character, or leave it out.",
    )


def _sniff(sample: str, start: int, *, cut: bool) -> str | None:
    """Return the delimiter that fits best; None where the header has one cell under each."""
    fits = {mark: _fit(sample, start, mark, cut=cut) for mark in DELIMITERS}
    best = max(fits, key=lambda mark: fits[mark])
    return best if fits[best] > -1 else None


def _fit(sample: str, start: int, delimiter: str, *, cut: bool) -> float:
    """Return the share of rows as wide as the header; -1 where the header is one cell."""
    records = list(islice(scan_records(sample, delimiter, start), _SAMPLE_ROWS + 1))
    if cut and len(records) <= _SAMPLE_ROWS:
        records = records[:-1]
    header, *rows = [record for record in records if record.text.strip()] or [
        Record("", None, 0, True)
    ]
    if header.cells is None or len(header.cells) < 2:
        return -1
    fitting = sum(row.cells is not None and len(row.cells) == len(header.cells) for row in rows)
    return fitting / max(len(rows), 1)
