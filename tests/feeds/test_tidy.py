"""Rows that are no data, and the numbers of the rows that are."""

import polars as pl
import pytest

from eol.feeds.raw import RawFile, Refusal, number_rows, refused_frame
from eol.feeds.tidy import is_totals_row, is_units_row, tidy

HEADER = ("vin", "station", "pressure", "note")


def tidied(*rows: tuple[str | None, ...]) -> RawFile:
    """Tidy rows under the header."""
    frame = pl.DataFrame(list(rows), schema=dict.fromkeys(HEADER, pl.String), orient="row")
    return tidy(number_rows(frame), refused_frame(), HEADER)


ROW = ("U1", "W1", "250", None)


@pytest.mark.parametrize(
    "cells",
    [
        ("[-]", "[]", "[kPa]", "(text)"),
        ("", "", "kPa", None),
        ("-", "s", "°C", "mm"),
        ("", "l/min", "m/s²", "bar"),
        ("", "Nm", "1/min", "%"),
    ],
)
def test_a_line_of_measure_units_is_known(cells: tuple[str | None, ...]) -> None:
    """All cells are in brackets, known units, dashes or empty."""
    cleaned = tuple("N·m" if cell == "Nm" else cell for cell in cells)
    assert is_units_row(cleaned)
    assert tidied(cleaned, ROW).frame.rows() == [(*ROW, 1)]


@pytest.mark.parametrize(
    "cells", [("U1", "", "kPa", ""), ("", "", "", ""), ("-", "-", "-", "-"), ("", "", "250", "")]
)
def test_a_row_of_data_is_no_line_of_units(cells: tuple[str, ...]) -> None:
    """One cell that is no unit makes it a row; nothing at all makes no units."""
    assert not is_units_row(cells)


def test_units_are_looked_for_in_the_first_row_only() -> None:
    """Further down a row of units would be a row of data."""
    units = (None, None, "kPa", None)
    assert tidied(ROW, units).frame.height == 2
    assert tidied(units, ROW).notes == ("The line of measure units was skipped: kPa.",)


def test_a_repeated_header_is_skipped_with_a_note() -> None:
    """Two exports in one file are one table."""
    raw = tidied(ROW, HEADER, ROW, HEADER)
    assert raw.frame["file_row"].to_list() == [1, 2]
    assert raw.notes == ("The header was repeated 2 times and skipped there.",)


def test_a_row_that_shares_one_word_with_the_header_stays() -> None:
    """Only a row that repeats every name is a header."""
    assert tidied(("vin", "W1", "250", None)).frame.height == 1


@pytest.mark.parametrize("first", ["Total", "SUMME:", "sum", "count 57", "Anzahl=3", "totals"])
def test_a_line_of_totals_at_the_end_is_skipped(first: str) -> None:
    """It opens with a word for totals, and half of its other cells are empty."""
    raw = tidied(ROW, (first, None, "57", None))
    assert raw.frame.rows() == [(*ROW, 1)]
    assert raw.notes == (f"The line of totals at the end was skipped: {first}, 57.",)


@pytest.mark.parametrize(
    "cells", [("total", "W1", "250", None), ("totaled", None, None, None), (None, None, "9", "x")]
)
def test_a_row_of_data_is_no_line_of_totals(cells: tuple[str | None, ...]) -> None:
    """Cells that are filled, or another word, make it a row."""
    assert not is_totals_row(cells)
    assert tidied(ROW, cells).frame.height == 2


def test_totals_are_looked_for_in_the_last_row_only() -> None:
    """Nothing in the middle is dropped for its first word."""
    assert tidied(("Total", None, "5", None), ROW).frame.height == 2


def test_empty_rows_do_not_count() -> None:
    """A row without any cell is no row; one with a single cell is."""
    raw = tidied((None,) * 4, ROW, (None,) * 4, (None, None, None, "x"))
    assert raw.frame["file_row"].to_list() == [1, 2]
    assert raw.notes == ("2 empty rows were skipped.",)


def test_refused_rows_are_counted_with_the_others() -> None:
    """What is dropped before a row lowers its number, kept or refused."""
    frame = pl.DataFrame({"vin": ["vin", "U3"], "file_row": [2, 4]})
    refused = refused_frame([Refusal(1, "x", "{}"), Refusal(3, "y", "{}")])
    raw = tidy(frame, refused, ["vin"])
    assert raw.frame["file_row"].to_list() == [3]
    assert raw.refused["file_row"].to_list() == [1, 2]


def test_a_column_without_name_and_content_is_dropped() -> None:
    """A delimiter at the end of each line makes no column."""
    frame = pl.DataFrame({"vin": ["U1"], "column_2": [None]}, schema_overrides={"column_2": str})
    assert tidy(number_rows(frame), refused_frame(), ["vin", " "]).frame.columns == [
        "vin",
        "file_row",
    ]


def test_a_header_without_rows_is_fine_and_told() -> None:
    """A quiet shift sends a header alone."""
    raw = tidied()
    assert raw.frame.is_empty()
    assert raw.notes == ("The file holds a header and no rows.",)
