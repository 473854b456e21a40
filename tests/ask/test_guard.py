"""What a statement may be, told before it runs."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from eol.ask.guard import checked
from eol.errors import UsageError
from eol.store.connect import open_apart
from eol.store.database import Database


@pytest.fixture(scope="module")
def database() -> Iterator[Database]:
    """An empty database: the guard looks at the text alone."""
    with open_apart({}) as opened:
        yield opened


@pytest.mark.parametrize("text", ["SELECT 1", "SELECT 1;", " SELECT 1 ; ", "-- why\nSELECT 1 ;\n"])
def test_statement_comes_without_its_semicolon(database: Database, text: str) -> None:
    """One statement with or without a semicolon is the same."""
    assert checked(database, text).splitlines()[-1].strip() == "SELECT 1"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("/* x */ DELETE FROM run", "DELETE is refused"),
        ("-- x\nINSTALL httpfs", "INSTALL is refused"),
        ("EXPLAIN COPY a TO 'b'", "COPY is refused"),
        ("FROM a, b, glob('*'), read_csv('x')", "glob, read_csv is refused"),
        ("SELECT (SELECT 1 FROM (SELECT * FROM read_text('x')))", "read_text is refused"),
        (
            "WITH RECURSIVE t AS (SELECT 1 UNION SELECT 2 FROM t, read_blob('x')) FROM t",
            "read_blob is refused",
        ),
    ],
)
def test_refusal_names_what_is_refused(database: Database, text: str, words: str) -> None:
    """The word or function that is refused is named, wherever it stands."""
    with pytest.raises(UsageError, match=words):
        checked(database, text)


def test_strings_are_no_statements(database: Database) -> None:
    """A text that holds SQL is a text."""
    text = "SELECT 'DELETE FROM run; read_text(''x'')' AS a"
    assert checked(database, text) == text
