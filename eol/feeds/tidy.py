"""Rows that are no data: empty rows, a line of measure units, repeated headers, a line of totals.

They are dropped with a note and do not count in `file_row`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

import polars as pl
import polars.selectors as cs

from eol.feeds.raw import FILE_ROW, RawFile

TOTALS_WORDS = frozenset(
    ("total", "totals", "sum", "sums", "summe", "gesamt", "gesamtsumme", "count", "anzahl")
)

_UNIT = (
    r"%|‰|°|°?[CF]|K|[kmMµuh]?Pa|m?bar|psi|atm|[kmµuMG]?[VAWNJΩ]|[kmM]?Ohm|V?DC|V?AC|[kM]?Hz|dB|dBA|dB\(A\)"
    r"|[kcmµu]?m|in|inch|mi|[nµum]?s|sec|ms|min|h|d|[mc]?l|[mc]?L|[mk]?g|t|lx|lm|cd|mol|rad|deg|ppm|rpm"
    r"|pcs|pc|count|text|n/?a|yyyy.*|hh.*|dd.*"
)
_UNIT_WORD = re.compile(rf"(?:1/)?(?:{_UNIT})[²³]?(?:\^-?\d)?(?:[/·*](?:{_UNIT})[²³]?(?:\^\d)?)*")
_BRACKETED = re.compile(r"\[[^\[\]]*\]|\([^()]*\)")
_NO_UNIT = ("", "-", "–")

_Find = Callable[[pl.DataFrame, Sequence[str]], pl.DataFrame]
_Word = Callable[[pl.DataFrame], str]


def tidy(frame: pl.DataFrame, refused: pl.DataFrame, header: Sequence[str]) -> RawFile:
    """Drop the rows that are no data and count the others anew.

    Args:
        frame: text columns and `file_row`, a column for each cell of the header.
        refused: refused rows, counted together with the frame's.
        header: the header's cells as sent.

    Returns:
        The rows that remain, with `file_row` counted over kept and refused rows alone, and a note
        for each kind of row dropped. A column without name and content is dropped too.
    """
    raw = RawFile(frame, refused)
    for find, word in _FINDERS:
        raw = _without(raw, find(raw.frame, header), word)
    kept = _drop_nameless(raw.frame, header)
    nothing = ("The file holds a header and no rows.",)
    empty = kept.is_empty() and raw.refused.is_empty()
    return RawFile(kept, raw.refused, raw.notes + nothing if empty else raw.notes)


def is_units_row(cells: Sequence[str | None]) -> bool:
    """Tell whether a row's cells are measure units, in brackets or known, or empty.

    Example:
        >>> is_units_row(["", "[-]", "kPa", "°C"]), is_units_row(["0ZZ1", "kPa", "", ""])
        (True, False)
    """
    words = [(cell or "").strip() for cell in cells]
    told = [word for word in words if word not in _NO_UNIT]
    return bool(told) and all(
        _BRACKETED.fullmatch(word) or _UNIT_WORD.fullmatch(word) for word in told
    )


def is_totals_row(cells: Sequence[str | None]) -> bool:
    """Tell whether a row opens with a word for totals and half of its other cells are empty.

    Example:
        >>> is_totals_row(["Total:", "", "", "57"]), is_totals_row(["total", "4", "5"])
        (True, False)
    """
    first, *others = [(cell or "").strip() for cell in cells] or [""]
    empty = sum(not cell for cell in others)
    words = re.split(r"[\s:=]", first.lower(), maxsplit=1)
    return words[0] in TOTALS_WORDS and bool(others) and 2 * empty >= len(others)


def _empty_rows(frame: pl.DataFrame, header: Sequence[str]) -> pl.DataFrame:
    first = frame.to_series(0)
    if not first.null_count():  # the quick test: no row begins with an empty cell
        return frame.clear()
    return frame.filter(pl.all_horizontal(pl.exclude(FILE_ROW).is_null()))


def _units_rows(frame: pl.DataFrame, header: Sequence[str]) -> pl.DataFrame:
    first = frame.head(1)
    found = first.height and first[FILE_ROW][0] == 1 and is_units_row(_cells(first))
    return first if found else frame.clear()


def _header_rows(frame: pl.DataFrame, header: Sequence[str]) -> pl.DataFrame:
    """The rows that name the columns once more, letter by letter."""
    named = [(column, name) for column, name in zip(frame.columns, header, strict=False) if name]
    first, name = named[0]
    if not (frame[first] == name).any():  # the quick test
        return frame.clear()
    return frame.filter(pl.all_horizontal(cs.by_name(column) == name for column, name in named))


def _totals_rows(frame: pl.DataFrame, header: Sequence[str]) -> pl.DataFrame:
    last = frame.tail(1)
    return last if last.height and is_totals_row(_cells(last)) else frame.clear()


def _cells(row: pl.DataFrame) -> tuple[str | None, ...]:
    return row.drop(FILE_ROW).row(0)


def _told(row: pl.DataFrame) -> str:
    return ", ".join(cell for cell in _cells(row) if cell)[:200]


def _drop_nameless(frame: pl.DataFrame, header: Sequence[str]) -> pl.DataFrame:
    nameless = [
        column for column, name in zip(frame.columns, header, strict=False) if not name.strip()
    ]
    empty = [column for column in nameless if frame[column].null_count() == frame.height]
    return frame.drop(empty) if empty else frame


def _without(raw: RawFile, rows: pl.DataFrame, word: _Word) -> RawFile:
    if rows.is_empty():
        return raw
    numbers = rows[FILE_ROW]
    kept = raw.frame.filter(~pl.col(FILE_ROW).is_in(numbers.implode()))
    notes = (*raw.notes, word(rows))
    return RawFile(_recount(kept, numbers), _recount(raw.refused, numbers), notes)


def _recount(frame: pl.DataFrame, dropped: pl.Series) -> pl.DataFrame:
    """Take from each row's number how many dropped rows stood before it."""
    before = dropped.search_sorted(frame[FILE_ROW]).cast(pl.Int64)
    return frame.with_columns(file_row=pl.col(FILE_ROW) - before)


_FINDERS: tuple[tuple[_Find, _Word], ...] = (
    (_empty_rows, lambda rows: f"{rows.height} empty rows were skipped."),
    (_units_rows, lambda rows: f"The line of measure units was skipped: {_told(rows)}."),
    (_header_rows, lambda rows: f"The header was repeated {rows.height} times and skipped there."),
    (_totals_rows, lambda rows: f"The line of totals at the end was skipped: {_told(rows)}."),
)
