"""The quick way through polars: taken by clean files, and by them alone."""

import pytest

from eol.feeds.csv_clean import no_rows, polars_csv, read_clean
from eol.feeds.csv_head import read_head
from eol.feeds.raw import ReadOptions


def clean(text: str) -> list[tuple[str | None, ...]] | None:
    """The rows of a text with the header a,b,c; None where it is not clean."""
    data = text.encode()
    frame = read_clean(data, read_head(data, ReadOptions(delimiter=","), where="w.csv"))
    return None if frame is None else frame.rows()


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_clean_files_go_the_quick_way(line_end: str) -> None:
    """All three line ends, blanks kept, an empty cell null, a last line without its end."""
    text = line_end.join(["a,b,c", "1, x ,3", ",,6", "7,8,9"])
    rows = [("1", " x ", "3"), (None, None, "6"), ("7", "8", "9")]
    assert clean(text) == rows
    assert clean(text + line_end) == rows


def test_quoted_cells_go_the_quick_way() -> None:
    """Delimiters, line breaks and doubled quotes inside quotes; a quoted empty cell is null."""
    text = 'a,b,c\n"1,0","x\ny","b ""x"" b"\n"",2,""\n'
    assert clean(text) == [("1,0", "x\ny", 'b "x" b'), (None, "2", None)]


def test_words_for_nothing_stay_words() -> None:
    """`null`, `NA` and `NaN` are text; what they mean is the mapping's business."""
    assert clean("a,b,c\nnull,NA,NaN\n") == [("null", "NA", "NaN")]


@pytest.mark.parametrize(
    "body",
    [
        "1,2\n4,5,6\n",
        "1,2,3\n4,5\n",
        "1,2,3,4\n",
        "1,2,3\n4,5,6,\n",
        "1,2,3\n\n4,5,6\n",
        "1,2,3\n4,5",
        "1,2,3\r\n4,5,6\n",
        "1,2,3\r4,5,6\n",
        "1,2\x00,3\n",
        "1,2\x1f,3\n",
        '1,"2,3\n4,5,6\n7,8,9"\n',
        '5" pipe,2,3\n',
        '"a"b"c",2,3\n',
        '\n1,"2",3,',
    ],
)
def test_anything_else_is_left_to_the_careful_way(body: str) -> None:
    """Short, long and blank rows, mixed line ends, control characters, quotes out of place."""
    assert clean("a,b,c\n" + body) is None


def test_one_fault_does_not_hide_another() -> None:
    """A short row beside an odd line end: the bytes must not add up by chance."""
    assert clean("a,b\n1\n2,3\r\n") is None
    assert clean('a,b\r\n"x\ny",2\r\n1\r3,4\r\n') is None


def test_a_header_alone_is_clean() -> None:
    """No row is no fault."""
    assert clean("a,b,c\n") == []
    assert clean("a,b,c") == []


def test_polars_is_given_the_rows_below_the_header() -> None:
    """Comment lines and a header over two lines are passed over."""
    data = b'# x\na,"b\nc"\n1,2\n'
    head = read_head(data, ReadOptions(), where="w.csv")
    assert polars_csv(data, head).to_dicts() == [{"a": "1", "b\nc": "2"}]
    assert no_rows(head).columns == ["a", "b\nc"]
