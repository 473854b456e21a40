"""Records and cells after RFC 4180, and what a stray quote may spoil."""

import pytest

from eol.feeds.csv_scan import scan_records


def cells(text: str, delimiter: str = ",") -> list[tuple[str, ...] | None]:
    """The cells of each record."""
    return [record.cells for record in scan_records(text, delimiter)]


def test_csv_4180() -> None:
    """RFC 4180 rules 1-7: quotes, doubled quotes, a quoted line break, blanks kept, an empty last cell."""
    text = '"aaa","b ""x"" b","c\r\nc"\r\nzzz, yyy ,\r\n'
    assert cells(text) == [("aaa", 'b "x" b', "c\r\nc"), ("zzz", " yyy ", "")]


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_all_three_line_ends_end_a_record(line_end: str) -> None:
    """LF, CRLF and CR are known, and a last line needs none."""
    assert cells(f"a,b{line_end}c,d") == [("a", "b"), ("c", "d")]


def test_line_ends_may_be_mixed() -> None:
    """A file put together from two systems keeps all its rows."""
    assert cells("a\rb\nc\r\nd\n") == [("a",), ("b",), ("c",), ("d",)]


def test_other_line_separators_are_letters() -> None:
    """Vertical tab, form feed and U+2028 end no record."""
    assert cells("a\x0bb\x0cc\u2028d\n") == [("a\x0bb\x0cc\u2028d",)]


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|", "^", "]"])
def test_any_delimiter_splits_quoted_and_plain_cells(delimiter: str) -> None:
    """A delimiter inside quotes is a letter, also one that means something to patterns."""
    text = f'a{delimiter}"b{delimiter}c"\n'
    assert cells(text, delimiter) == [("a", f"b{delimiter}c")]


@pytest.mark.parametrize("broken", ['1,"2,3', '"x"y,2', '"x" ,2', '"x'])
def test_a_stray_quote_breaks_its_own_line_only(broken: str) -> None:
    """Reading goes on at the next line, however far the next quote is."""
    assert cells(f'{broken}\n4,5\n"6",7\n') == [None, ("4", "5"), ("6", "7")]


def test_a_quote_inside_a_plain_cell_is_a_letter() -> None:
    """Inches are written so by those who quote nothing."""
    assert cells('5" pipe,2\n, "x"\n') == [('5" pipe', "2"), ("", ' "x"')]


def test_a_record_knows_where_it_ends_and_whether_it_was_closed() -> None:
    """A last line without its line end may be half a line."""
    records = list(scan_records("ab,c\r\nd,", ","))
    assert [(record.end, record.closed) for record in records] == [(6, True), (8, False)]
    assert [record.text for record in records] == ["ab,c", "d,"]
