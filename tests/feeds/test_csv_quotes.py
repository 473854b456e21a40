"""Quotes that enclose whole cells, told without reading a row."""

import pytest

from eol.feeds.csv_head import read_head
from eol.feeds.csv_quotes import BLOCK_BYTES, sound_quotes
from eol.feeds.raw import ReadOptions


def counted(body: str, header: str = "a,b\n") -> int | None:
    """Count the quotes below a header; None where they are not sound."""
    data = (header + body).encode()
    return sound_quotes(data, read_head(data, ReadOptions(delimiter=","), where="w.csv"))


def test_quotes_of_the_header_are_not_counted() -> None:
    """The header is read by itself."""
    assert counted('"1",2\n', header='"a",b\n') == 2
    assert counted("1,2\n", header='"a",b\n') == 0


@pytest.mark.parametrize(
    "body",
    ["1,2\n", '"1","2"\n', '"a,b",""\n', '"a\nb",2', '1,"2"', '1,"x ""y"" z"\n', '"""a""",""""\n'],
)
def test_cells_wholly_in_quotes_are_sound(body: str) -> None:
    """A quote opens at the start of a cell and closes at its end; inside it is doubled."""
    assert counted(body) == body.count('"')


@pytest.mark.parametrize(
    "body", ['5" pipe,2\n', '5" p"ipe,2\n', '"x"y,2\n', '"a"b"c",2\n', ' "x",2\n', '"1,2\n']
)
def test_quotes_elsewhere_are_not(body: str) -> None:
    """Such a file is read record by record."""
    assert counted(body) is None


@pytest.mark.parametrize("shift", [0, 1, 2, 3])
def test_a_cell_may_lie_across_two_blocks(shift: int) -> None:
    """The count goes on from block to block, wherever the border falls."""
    body = "x" * (BLOCK_BYTES - shift) + ',"b"\n"c","d""e"\n'
    assert counted(body) == 8
    assert counted(body + '"') is None
