"""Where lines begin, and which need a closer look."""

import pytest

from eol.feeds.csv_lines import Lines, find_lines


def lines(body: str, *, lossy: bool = False) -> Lines:
    """Find the lines of a body of two columns."""
    return find_lines(body.encode(), ",", 2, lossy=lossy)


@pytest.mark.parametrize(
    ("body", "starts"),
    [
        ("1,2\n3,4\n", [0, 4]),
        ("1,2\r\n3,4", [0, 5]),
        ("1,2\r3,4\r", [0, 4]),
        ("1\n\r\n\r2", [0, 2, 4, 5]),
        ("ä,2\n3,4\n", [0, 5]),
        ("", []),
    ],
)
def test_a_line_begins_behind_each_line_end(body: str, starts: list[int]) -> None:
    """LF, CRLF and a CR alone end a line; places are counted in bytes."""
    assert lines(body).starts.tolist() == starts


@pytest.mark.parametrize(
    "odd", ["1", "1,2,3", '"1",2', "1,\0", "1,\x1f", "", "\r", "1,2\r3,4", '1,"2']
)
def test_odd_lines_are_special(odd: str) -> None:
    """Too few or many delimiters, quotes, control characters, blank lines, a return alone."""
    found = lines(f"1,2\n{odd}\n3,4\n5,6\n")
    assert 1 in found.special
    assert 0 not in found.special
    assert len(found.starts) - 2 not in found.special


def test_plain_lines_are_not_special_but_for_the_last() -> None:
    """Tabs and letters beyond ASCII are plain; the last line may be half a line."""
    assert lines("1\t,ü\n,\r\n3,4\n").special.tolist() == [2]


def test_a_replaced_byte_counts_only_where_bytes_were_lost() -> None:
    """U+FFFD is a letter of a sound file."""
    body = "1,\ufffd\n3,\ufffd\ufffd\n5,6\n7,8\n"
    assert lines(body).special.tolist() == [3]
    assert lines(body, lossy=True).special.tolist() == [0, 1, 3]


def test_long_files_are_looked_at_in_blocks() -> None:
    """The border between two blocks hides no line, and makes none special."""
    body = "".join("1\n" if n in (16_383, 16_384, 32_768) else "1,2\n" for n in range(40_000))
    found = lines(body)
    assert len(found.starts) == 40_000
    assert found.special.tolist() == [16_383, 16_384, 32_768, 39_999]


def test_a_line_is_found_by_where_it_begins() -> None:
    """A right guess saves the search, a wrong one does no harm."""
    found = lines("1,2\n3,4\n5,6\n")
    assert [found.line_at(8, guess=guess) for guess in (1, 2, 9)] == [2, 2, 2]
    assert found.line_at(12, guess=0) == 3
