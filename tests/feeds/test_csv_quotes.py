"""Quotes that enclose whole cells, told without reading a row."""

import pytest

from eol.feeds.csv_head import read_head
from eol.feeds.csv_quotes import quote_positions, well_quoted
from eol.feeds.raw import ReadOptions


def sound(body: str) -> bool:
    """Tell whether the quotes below a header are well."""
    data = b"a,b\n" + body.encode()
    head = read_head(data, ReadOptions(delimiter=","), where="w.csv")
    return well_quoted(data, quote_positions(data, head.body), head)


def test_positions_are_counted_from_the_start_of_the_file() -> None:
    """Quotes of the header are left out, those of the body keep their place."""
    assert quote_positions(b'"a",b\n"1",2\n', 6).tolist() == [6, 8]
    assert quote_positions(b"a,b\n", 0).tolist() == []


@pytest.mark.parametrize(
    "body",
    ["1,2\n", '"1","2"\n', '"a,b",""\n', '"a\nb",2', '1,"2"', '1,"x ""y"" z"\n', '"""a""",""""\n'],
)
def test_cells_wholly_in_quotes_are_sound(body: str) -> None:
    """A quote opens at the start of a cell and closes at its end; inside it is doubled."""
    assert sound(body)


@pytest.mark.parametrize(
    "body", ['5" pipe,2\n', '5" p"ipe,2\n', '"x"y,2\n', '"a"b"c",2\n', ' "x",2\n', '"1,2\n']
)
def test_quotes_elsewhere_are_not(body: str) -> None:
    """Such a file is read record by record."""
    assert not sound(body)
