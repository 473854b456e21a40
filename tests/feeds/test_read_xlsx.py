"""XLSX workbooks as text, and day numbers."""

import io
import zipfile
from collections.abc import Sequence
from datetime import datetime, time
from typing import Any

import pytest
import xlsxwriter

from eol.errors import FeedFileError
from eol.feeds.raw import RawFile
from eol.feeds.read_xlsx import read_xlsx


def workbook(**sheets: Sequence[Sequence[Any]]) -> bytes:
    """A workbook with these sheets, a sequence a row."""
    stream = io.BytesIO()
    formats = {"default_date_format": "dd.mm.yyyy hh:mm:ss"}
    with xlsxwriter.Workbook(stream, formats) as book:
        for name, rows in sheets.items():
            sheet = book.add_worksheet(name)
            for number, row in enumerate(rows):
                sheet.write_row(number, 0, row)
    return stream.getvalue()


def read(**sheets: Sequence[Sequence[Any]]) -> RawFile:
    """Read such a workbook."""
    return read_xlsx(workbook(**sheets), where="w.xlsx", limit=10_000_000)


def test_cells_come_as_text() -> None:
    """Numbers as they stand, dates in ISO form whatever the sheet shows, times alone as times."""
    row = ("U1", 250, 250.5, datetime(2026, 9, 8, 10, 0, 5), time(10, 0, 5), True, "007", None)
    raw = read(water=[tuple("abcdefgh"), row])
    assert raw.frame.rows() == [
        ("U1", "250", "250.5", "2026-09-08 10:00:05", "10:00:05", "true", "007", None, 1)
    ]


def test_a_day_number_stays_text() -> None:
    """Whether 45658.75 is a time is for the mapping to say."""
    assert read(water=[["started_at"], [45658.75]]).frame.rows() == [("45658.75", 1)]


def test_the_first_sheet_with_a_header_is_read() -> None:
    """Empty sheets and sheets of comments are passed over, later sheets left alone."""
    raw = read(empty=[], notes=[["# only words"]], water=[["vin"], ["U1"]], other=[["x"], ["y"]])
    assert raw.frame.rows() == [("U1", 1)]


def test_rows_that_are_no_data_are_skipped_as_in_csv() -> None:
    """Comments, blank rows, units, a second header, totals."""
    header, row = ["vin", "pressure", "note"], ["U1", 250, "x"]
    rows = [["# W1"], [], header, ["[-]", "[kPa]", None], row, [], header, row, ["Total", 2]]
    raw = read(water=rows)
    assert raw.frame.rows() == [("U1", "250", "x", 1), ("U1", "250", "x", 2)]
    assert len(raw.notes) == 5


def test_doubled_names_are_refused_with_the_sheet() -> None:
    """The message names the sheet in which to look."""
    with pytest.raises(FeedFileError, match=r"w\.xlsx, sheet 'water': the header names 'a' more"):
        read(water=[["a", "a"], [1, 2]])


def test_a_workbook_without_a_header_is_refused() -> None:
    """No sheet names a column."""
    with pytest.raises(FeedFileError, match="no sheet of the workbook has a header"):
        read(empty=[], also=[["# x"]])


def test_a_cut_or_damaged_workbook_is_refused() -> None:
    """Each part carries a checksum, and it is checked before a cell is believed."""
    whole = workbook(water=[["vin"], ["U1"]])
    damaged = bytearray(whole)
    damaged[60] ^= 1
    for content in (whole[:-30], bytes(damaged), b"PK\x03\x04 nothing"):
        with pytest.raises(FeedFileError, match="XLSX workbook is damaged or cut off"):
            read_xlsx(content, where="w.xlsx", limit=10_000_000)


def test_another_archive_is_no_workbook() -> None:
    """A ZIP archive of CSV files is told as what it is."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        archive.writestr("water.csv", "vin\n")
    with pytest.raises(FeedFileError, match="a ZIP archive, but no XLSX workbook"):
        read_xlsx(stream.getvalue(), where="w.xlsx", limit=10_000_000)


def test_a_workbook_that_unpacks_to_too_much_is_refused() -> None:
    """The limit holds for what is inside."""
    with pytest.raises(FeedFileError, match=r"unpacks to .* bytes, the limit is 1,000"):
        read_xlsx(workbook(water=[["vin"]]), where="w.xlsx", limit=1000)
