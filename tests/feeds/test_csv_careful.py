"""Row by row: each bad row is refused with its reason, each good one kept."""

import json

import pytest

from eol.feeds.csv_careful import read_careful
from eol.feeds.csv_head import read_head
from eol.feeds.encoding import to_utf8
from eol.feeds.raw import ReadOptions

Rows = list[tuple[object, ...]]


def careful(body: str | bytes) -> tuple[Rows, list[tuple[int, str]], list[object]]:
    """Rows kept, refused (number, reason), and refused raw rows, under the header a,b,c."""
    content = b"a,b,c\n" + (body if isinstance(body, bytes) else body.encode())
    text = to_utf8(content, None, where="w.csv")
    frame, refused = read_careful(text, read_head(text.data, ReadOptions(), where="w.csv"))
    raw = [json.loads(row) for row in refused["raw"]]
    return frame.rows(), refused.select("file_row", "reason").rows(), raw


def test_a_row_with_too_few_or_too_many_cells_is_refused() -> None:
    """The reason names both counts, the good row between keeps its number."""
    rows, refused, raw = careful("1,2\n4,5,6\n7,8,9,10\n")
    assert rows == [("4", "5", "6", 2)]
    assert refused == [
        (1, "the row has 2 cells where the header names 3 columns"),
        (3, "the row has 4 cells where the header names 3 columns"),
    ]
    assert raw == [{"a": "1", "b": "2"}, {"a": "7", "b": "8", "c": "9", "surplus": ["10"]}]


@pytest.mark.parametrize("end", ["4,5", "4", '4,"x', '4,5,"x'])
def test_a_half_written_last_line_is_refused(end: str) -> None:
    """No line end and too few cells, or a quote still open: the line is still being written."""
    rows, refused, _ = careful(f"1,2,3\n{end}")
    assert rows == [("1", "2", "3", 1)]
    assert refused == [(2, "the last line is cut off")]


def test_a_whole_last_line_needs_no_line_end() -> None:
    """Many writers leave the last line end out."""
    assert careful("1,2,3\n4,5,6")[0] == [("1", "2", "3", 1), ("4", "5", "6", 2)]


def test_before_a_nul_tail_a_last_line_needs_its_line_end() -> None:
    """Where reserved space follows, the writer had not finished: `25` may have become `250`."""
    rows, refused, _ = careful(b"1,2,3\n4,5,25" + b"\0" * 9)
    assert rows == [("1", "2", "3", 1)]
    assert refused == [(2, "the last line is cut off")]


@pytest.mark.parametrize(
    ("cell", "word"), [("\0", "NUL character"), ("\x1f", "control character 0x1f")]
)
def test_a_row_with_a_character_that_no_text_holds_is_refused(cell: str, word: str) -> None:
    """The row was damaged on its way; those beside it were not."""
    rows, refused, raw = careful(f"1,{cell}2,3\n4,5,6\n")
    assert rows == [("4", "5", "6", 2)]
    assert refused == [(1, f"the row holds the {word}, which is no text")]
    assert raw == [{"a": "1", "b": f"{cell}2", "c": "3"}]


def test_a_row_with_a_stray_quote_is_refused_and_its_line_kept() -> None:
    """Cells that cannot be told apart are kept as the line they came in."""
    rows, refused, raw = careful('1,"2,3\n4,5,6\n')
    assert rows == [("4", "5", "6", 2)]
    assert refused[0][1].startswith("a quote opens or closes inside a cell")
    assert raw == [{"line": '1,"2,3'}]


def test_a_row_in_another_encoding_is_refused() -> None:
    """Bytes that are no UTF-8 spoil their row, not the file."""
    rows, refused, _ = careful("1,größer,ü\n".encode() + b"4,\xfc,6\n")
    assert rows == [("1", "größer", "ü", 1)]
    assert refused == [(2, "the row holds bytes that are not utf-8")]


def test_blank_lines_do_not_count() -> None:
    """An empty line is no row, and no reason to refuse one."""
    rows, refused, _ = careful("\n1,2,3\n  \n,\n4,5,6\n\n")
    assert rows == [("1", "2", "3", 1), ("4", "5", "6", 2)]
    assert refused == []


def test_mixed_line_ends_and_awkward_cells_come_out_as_sent() -> None:
    """What is written out clean for polars reads back cell by cell."""
    rows, refused, _ = careful('1," ""q"" ",\r4,5" p,"x\r\ny"\r\n7,"8,0", 9 \n')
    assert rows == [("1", ' "q" ', None, 1), ("4", '5" p', "x\r\ny", 2), ("7", "8,0", " 9 ", 3)]
    assert refused == []


def test_one_bad_row_among_many_costs_only_itself() -> None:
    """Plain lines are taken in runs; a quoted cell over lines is one row of them."""
    body = "1,2,3\n" * 20_000 + '4,"x\ny",6\n7,8\n' + "9,8,7\n" * 20_000
    rows, refused, _ = careful(body)
    assert len(rows) == 40_001
    assert rows[20_000:20_002] == [("4", "x\ny", "6", 20_001), ("9", "8", "7", 20_003)]
    assert [number for number, _ in refused] == [20_002]


def test_a_file_of_bad_rows_keeps_none() -> None:
    """All refused is not an error of the file."""
    rows, refused, _ = careful("1\n2\n")
    assert (rows, len(refused)) == ([], 2)
