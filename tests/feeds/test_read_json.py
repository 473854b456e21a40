"""JSON lines as text."""

import json

import pytest

from eol.errors import FeedFileError
from eol.feeds.raw import RawFile, ReadOptions
from eol.feeds.read_json import read_json_lines


def read(text: str | bytes) -> RawFile:
    """Read JSON lines."""
    content = text if isinstance(text, bytes) else text.encode()
    return read_json_lines(content, ReadOptions(), where="w.jsonl")


def test_the_columns_are_the_union_of_the_names() -> None:
    """A name that a line does not have is null there."""
    raw = read('{"vin": "U1", "code": "LEAK"}\n\n{"zone": "RRQ", "vin": "U2"}\n')
    assert raw.frame.columns == ["vin", "code", "zone", "file_row"]
    assert raw.frame.rows() == [("U1", "LEAK", None, 1), ("U2", None, "RRQ", 2)]


def test_values_keep_the_digits_that_were_sent() -> None:
    """250.0 stays 250.0 and a long number keeps its last digit; null and "" are null."""
    raw = read('{"a": 250.0, "b": 12345678901234567890, "c": true, "d": null, "e": ""}\n')
    assert raw.frame.row(0) == ("250.0", "12345678901234567890", "true", None, None, 1)


def test_nested_values_stay_json() -> None:
    """Lists and objects are kept as text, numbers inside them as numbers."""
    raw = read('{"a": {"x": [1, 2.5], "y": "ü"}, "b": 1.50}\n')
    assert json.loads(raw.frame["a"][0]) == {"x": [1, 2.5], "y": "ü"}


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ('{"a": 1,}', "the line is no JSON object: "),
        ("[1]", "the line is JSON, but no object with named values"),
        ('{"a": 1, "a": 2}', "the line names 'a' more than once"),
        ('{"a": "\\u0000"}', "the line holds a control character or half a character"),
        ('{"a": "\\ud800"}', "the line holds a control character or half a character"),
        ('{"a": "x\0"}', "the line is no JSON object: Invalid control character"),
        ('{"a": ' + "[" * 100_000, "the line is nested too deeply"),
    ],
)
def test_a_line_that_is_no_object_is_refused(line: str, reason: str) -> None:
    """The reason says why, the good lines around it are kept and numbered as sent."""
    raw = read(f'{{"a": "x"}}\n{line}\n{{"a": "y"}}\n')
    assert raw.frame.rows() == [("x", 1), ("y", 3)]
    assert raw.refused["file_row"].to_list() == [2]
    assert raw.refused["reason"][0].startswith(reason)


def test_a_half_written_last_line_is_refused() -> None:
    """A file that is still being written ends inside a line."""
    raw = read('{"a": "x"}\n{"a": "y')
    assert raw.refused.row(0) == (2, "the last line is cut off", '{"line": "{\\"a\\": \\"y"}')


def test_line_separators_inside_a_value_end_no_line() -> None:
    """U+2028 is a letter of a JSON text."""
    assert read('{"a": "x\u2028y"}\r\n').frame.rows() == [("x\u2028y", 1)]


def test_encodings_and_nul_tail_are_those_of_text() -> None:
    """UTF-16 is read; a broken byte refuses its line alone; a NUL tail is cut off with a note."""
    assert read('{"a": "ü"}\n'.encode("utf-16")).frame.rows() == [("ü", 1)]
    raw = read('{"a": "üü"}\n'.encode() + b'{"a": "\xfc"}\n' + b"\0" * 8)
    assert raw.frame.rows() == [("üü", 1)]
    assert raw.refused["reason"].to_list() == ["the line holds bytes that are not utf-8"]
    assert raw.notes == ("8 NUL bytes at the end of the file were cut off.",)


def test_a_sent_file_row_makes_room() -> None:
    """The reader's own number is not overwritten."""
    assert read('{"file_row": 9}\n').frame.to_dicts() == [{"file_row_sent": "9", "file_row": 1}]


def test_one_array_over_the_whole_file_is_refused() -> None:
    """It is JSON, but not lines of it; the message says what to write."""
    with pytest.raises(FeedFileError, match=r"no line .* is a JSON object\n.*one object a line"):
        read('[{"a": 1},\n {"a": 2}]\n')
