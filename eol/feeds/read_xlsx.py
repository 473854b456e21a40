"""XLSX workbooks as text: the first sheet that has a header, dates in ISO form."""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO

import fastexcel
import polars as pl

from eol.errors import FeedFileError
from eol.feeds.header import column_names, is_comment
from eol.feeds.raw import RawFile, number_rows, refused_frame
from eol.feeds.tidy import tidy

_TIME_ONLY = r"^1899-12-3[01] "
_ZIP_ERRORS = (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, RuntimeError)


def read_xlsx(content: bytes, *, where: str, limit: int) -> RawFile:
    """Read the first sheet that has a header.

    Args:
        content: the workbook's bytes.
        where: the file, for messages.
        limit: the most bytes that its parts may unpack to.

    Returns:
        The rows as text, dates as `2026-01-01 00:01:12`, times alone as `00:01:12`; numbers as they
        are, so a day number stays one; a cell with an error is null.

    Raises:
        FeedFileError: it is no workbook, damaged, too large unpacked, or without any header.
    """
    _refuse_unsound(content, where, limit)
    try:
        for name, cells in _sheets(content):
            start = _header_row(cells)
            if start is not None:
                return _rows(cells, start, where=f"{where}, sheet '{name}'")
    except (fastexcel.FastExcelError, pl.exceptions.PolarsError) as error:
        raise _damaged(where, str(error).splitlines()[0]) from error
    raise FeedFileError("no sheet of the workbook has a header", where=where)


def _refuse_unsound(content: bytes, where: str, limit: int) -> None:
    """Refuse an archive that is no workbook, unpacks to too much, or fails its own checksums."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            _refuse_parts(archive.infolist(), where, limit)
            broken = archive.testzip()
    except _ZIP_ERRORS as error:
        plain = isinstance(error, ValueError)
        raise _damaged(where, "its list of parts is wrong" if plain else str(error)) from error
    if broken:
        raise _damaged(where, f"checksum of its part {broken}")


def _refuse_parts(parts: list[zipfile.ZipInfo], where: str, limit: int) -> None:
    if not any(part.filename == "xl/workbook.xml" for part in parts):
        raise FeedFileError(
            "the file is a ZIP archive, but no XLSX workbook",
            where=where,
            hint="Unpack the archive, or save the workbook as XLSX.",
        )
    size = sum(part.file_size for part in parts)
    if size > limit:
        raise FeedFileError(
            f"the workbook unpacks to {size:,} bytes, the limit is {limit:,}",
            where=where,
            hint="Send the table as CSV or Parquet, or raise inbox.max_bytes in plant.toml.",
        )


def _sheets(content: bytes) -> Iterator[tuple[str, pl.DataFrame]]:
    workbook = fastexcel.read_excel(content)
    for name in workbook.sheet_names:
        sheet = workbook.load_sheet(name, header_row=None, dtypes="string")
        yield name, sheet.to_polars()


def _header_row(cells: pl.DataFrame) -> int | None:
    """The first row that is neither empty nor a comment; None where there is none."""
    for index, row in enumerate(cells.iter_rows()):
        told = [cell for cell in row if cell and cell.strip()]
        if told and not is_comment(told[0]):
            return index
    return None


def _rows(cells: pl.DataFrame, start: int, *, where: str) -> RawFile:
    header = [cell or "" for cell in cells.row(start)]
    names = column_names(header, where=where)
    body = cells.slice(start + 1)
    body.columns = names
    text = pl.all().str.replace(_TIME_ONLY, "")
    body = body.with_columns(pl.when(text != "").then(text))
    tidied = tidy(number_rows(body), refused_frame(), header)
    above = f"{start} rows above the header were skipped."
    return replace(tidied, notes=(above, *tidied.notes)) if start else tidied


def _damaged(where: str, how: str) -> FeedFileError:
    return FeedFileError(
        f"the XLSX workbook is damaged or cut off ({how[:200]})",
        where=where,
        hint="Nothing of this file was loaded; have it saved and sent again.",
    )
