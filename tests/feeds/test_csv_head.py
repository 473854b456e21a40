"""The top of a delimited file."""

import pytest

from eol.errors import FeedFileError
from eol.feeds.csv_head import Head, read_head
from eol.feeds.raw import ReadOptions


def head(text: str, **options: str) -> Head:
    """Read the top of a text."""
    return read_head(text.encode(), ReadOptions(**options), where="w.csv")


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_the_delimiter_is_found(delimiter: str) -> None:
    """The four usual delimiters need no setting."""
    text = "vin,result,note\nU1,pass,\nU2,fail,x\n".replace(",", delimiter)
    assert head(text).delimiter == delimiter
    assert head(text).names == ("vin", "result", "note")


def test_a_decimal_comma_is_no_delimiter() -> None:
    """`1,5;2,5` has two cells."""
    assert head("pressure;length\n1,5;2,5\n").delimiter == ";"
    assert head("pressure, kPa;length, s\n1,5;2,5\n").delimiter == ";"


def test_delimiters_inside_quotes_and_notes_do_not_mislead() -> None:
    """A semicolon in a note is none; the header decides first."""
    assert head('vin,note\nU1,"a;b"\nU2,c;d;e\n').delimiter == ","


def test_one_column_takes_the_usual_delimiter() -> None:
    """A header of one cell says nothing; a TSV file then goes by tabs."""
    assert head("vin\nU1\n").delimiter == ","
    assert read_head(b"note\nx, y\n", ReadOptions(), where="w", usual="\t").delimiter == "\t"


def test_a_declared_delimiter_wins() -> None:
    """What the feed declares is not second-guessed."""
    assert head("a;b,c\n1;2,3\n", delimiter=",").names == ("a;b", "c")


def test_the_separator_line_of_a_spreadsheet_is_obeyed() -> None:
    """`sep=;` names the delimiter and is no header."""
    found = head("sep=;\nvin;a,b\nU1;2\n")
    assert (found.delimiter, found.names) == (";", ("vin", "a,b"))


def test_comment_lines_before_the_header_are_skipped_with_a_note() -> None:
    """Lines that begin with # or //, also quoted by a spreadsheet, and blank lines go first."""
    text = '# bench W1, "new\n\n// 2026-09-08\n"# x",,\nvin,result\nU1,pass\n'
    found = head(text)
    assert found.names == ("vin", "result")
    assert found.notes == ("3 comment lines before the header were skipped.",)
    assert text.encode()[found.body :] == b"U1,pass\n"


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_the_line_end_is_the_headers(line_end: str) -> None:
    """The header shows how lines end; the body begins behind it, counted in bytes."""
    found = head(f"vin,größe{line_end}U1,2{line_end}")
    assert (found.line_end, found.body) == (line_end, len("vin,größe".encode()) + len(line_end))


def test_a_name_may_span_lines() -> None:
    """A quoted line break in a header belongs to the name."""
    found = head('vin,"pressure\n(kPa)"\nU1,2\n')
    assert (found.names, found.body) == (("vin", "pressure\n(kPa)"), 21)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('vin,"result\nU1,pass\n', "a quote in the header does not close"),
        ("# only comments\n", "no line names the columns"),
        (",,\nU1,pass,\n", "no line names the columns"),
        ("vin,vin\n", "names 'vin' more than once"),
        ("x" * 300_000, "the header does not end within 262,144 bytes"),
    ],
)
def test_a_file_without_a_usable_header_is_refused(text: str, words: str) -> None:
    """Without names no cell can be told; the message says what is wrong with them."""
    with pytest.raises(FeedFileError, match=words):
        head(text)


@pytest.mark.parametrize("delimiter", ["", ";;", '"', "\n", "ä"])
def test_a_delimiter_is_one_ascii_character(delimiter: str) -> None:
    """A setting that cannot work is told before a file is read with it."""
    with pytest.raises(FeedFileError, match="is not one ASCII character"):
        head("a,b\n", delimiter=delimiter)
