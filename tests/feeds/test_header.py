"""Column names and comment lines."""

import pytest

from eol.errors import FeedFileError
from eol.feeds.header import column_names, is_comment


def test_names_lose_outer_blanks_only() -> None:
    """What a feed renames is the name as a person sees it."""
    assert column_names([" vin", "PRES kPa "], where="w") == ["vin", "PRES kPa"]


def test_a_column_without_name_is_numbered() -> None:
    """Cells under no name are kept under their place."""
    assert column_names(["vin", "", "result"], where="w") == ["vin", "column_2", "result"]


def test_the_readers_own_name_is_not_taken() -> None:
    """A sent `file_row` makes room."""
    assert column_names(["vin", "file_row"], where="w") == ["vin", "file_row_sent"]


def test_doubled_names_are_listed() -> None:
    """Which of two columns is meant cannot be told, so the file is refused and both are named."""
    with pytest.raises(FeedFileError, match="w: the header names 'a', 'b' more than once"):
        column_names(["a", "b", "c", "b", "a"], where="w")


@pytest.mark.parametrize("cells", [[], [""], ["", " "]])
def test_a_header_of_nothing_is_refused(cells: list[str]) -> None:
    """At least one column has a name."""
    with pytest.raises(FeedFileError, match="no line names the columns"):
        column_names(cells, where="w")


def test_a_damaged_header_is_refused() -> None:
    """NUL or control characters in a name: the file is damaged or no text at all."""
    with pytest.raises(FeedFileError, match=r"damaged or the file is no text: 'v\\x00n'"):
        column_names(["v\0n", "result"], where="w")


@pytest.mark.parametrize("line", ["# x", "//x", '  "# x",,', "#"])
def test_comments(line: str) -> None:
    """A comment begins with # or //."""
    assert is_comment(line)
    assert not is_comment("vin # x")
