"""What reading gives: refusals, raw rows, the row number."""

import json

import polars as pl

from eol.feeds.raw import MAX_RAW, Refusal, number_rows, raw_json, raw_line, refused_frame


def test_rows_are_counted_from_one() -> None:
    """`file_row` is 1 for the first data row, as Int64."""
    frame = number_rows(pl.DataFrame({"vin": ["U1", "U2"]}))
    assert frame["file_row"].to_list() == [1, 2]
    assert frame["file_row"].dtype == pl.Int64


def test_a_sent_column_named_file_row_is_kept_under_another_name() -> None:
    """The file's own `file_row` never passes for the reader's."""
    frame = number_rows(pl.DataFrame({"file_row": ["7"]}))
    assert frame.to_dicts() == [{"file_row_sent": "7", "file_row": 1}]


def test_no_refusal_gives_an_empty_frame_of_three_columns() -> None:
    """The refused frame has its types even when nothing was refused."""
    assert refused_frame().schema == {"file_row": pl.Int64, "reason": pl.String, "raw": pl.String}


def test_refusals_become_rows() -> None:
    """A refusal is one row: number, reason, raw."""
    frame = refused_frame([Refusal(3, "the last line is cut off", "{}")])
    assert frame.row(0) == (3, "the last line is cut off", "{}")


def test_raw_rows_are_json_that_people_can_read() -> None:
    """Letters beyond ASCII stay letters in the raw row."""
    assert raw_json({"note": "Rücklicht"}) == '{"note": "Rücklicht"}'


def test_a_very_long_line_is_cut_in_the_raw_row() -> None:
    """A swallowed megabyte does not go into the store beside its reason."""
    line = json.loads(raw_line("x" * (MAX_RAW + 1)))["line"]
    assert line == "x" * MAX_RAW + "…"
