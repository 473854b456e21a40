"""The careful reading of delimited text, record by record, after RFC 4180.

A quote opens a cell only as its first character and must be followed by a delimiter or a line end
when it closes. Where it is not, that one line is broken and reading goes on at the next line, so
that a stray quote spoils its own row and not the rest of the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

_LINE = re.compile(r"[^\r\n]*")


class Record(NamedTuple):
    """One record.

    Args:
        text: the record without its line end.
        cells: its cells; None where its quotes are broken.
        end: where the next record begins.
        closed: whether a line end stood behind it.
        bare: whether a quote stands inside a cell that is not in quotes.
    """

    text: str
    cells: tuple[str, ...] | None
    end: int
    closed: bool
    bare: bool = False


def scan_records(text: str, delimiter: str, start: int = 0) -> Iterator[Record]:
    """Yield the records of delimited text in order.

    Args:
        text: the text; line ends are LF, CRLF or CR, also mixed.
        delimiter: the one character between two cells.
        start: where the first record begins.

    Yields:
        Each record, blank lines too (one empty cell).
    """
    position = start
    while position < len(text):
        record = _plain_record(text, delimiter, position)
        if '"' in record.text:
            record = _quoted_record(text, delimiter, position) or record._replace(cells=None)
        yield record
        position = record.end


def _plain_record(text: str, delimiter: str, start: int) -> Record:
    line = _LINE.match(text, start)
    assert line is not None  # the pattern matches the empty text too
    end = _after_line_end(text, line.end())
    return Record(line[0], tuple(line[0].split(delimiter)), end, end > line.end())


def _quoted_record(text: str, delimiter: str, start: int) -> Record | None:
    """Read a record with quotes, over line breaks where they are quoted; None when it is broken."""
    cell_pattern = _cell_pattern(delimiter)
    cells, position, bare = [], start, False
    while match := cell_pattern.match(text, position):
        quoted, plain = match.groups()
        cells.append(plain if quoted is None else quoted.replace('""', '"'))
        bare = bare or (quoted is None and '"' in plain)
        position = match.end()
        if not text.startswith(delimiter, position):
            end = _after_line_end(text, position)
            return Record(text[start:position], tuple(cells), end, end > position, bare)
        position += len(delimiter)
    return None


@cache
def _cell_pattern(delimiter: str) -> re.Pattern[str]:
    """A quoted cell (group 1: its inside) or a plain one (group 2); possessive, so never slow."""
    mark = re.escape(delimiter)
    return re.compile(rf'"((?:[^"]++|"")*+)"(?=[{mark}\r\n]|\Z)|((?!")[^{mark}\r\n]*+)')


def _after_line_end(text: str, position: int) -> int:
    if text.startswith("\r\n", position):
        return position + 2
    return position + (text[position : position + 1] in ("\r", "\n"))
