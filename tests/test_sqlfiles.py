"""Finding and reading the files of queries/."""

from __future__ import annotations

import re

import pytest
from source_tree import ROOT

from eol.errors import UsageError
from eol.sqlfiles import (
    SqlFile,
    demo_folder,
    queries_folder,
    split_statements,
    sql_file,
    sql_files,
)

FOLDERS = sorted({path.parent.name for path in queries_folder().rglob("*.sql")})
FILES = [file for folder in FOLDERS for file in sql_files(folder)]


def test_folders_lie_beside_the_package_in_a_checkout() -> None:
    """In a checkout the folders at its top level are read."""
    assert queries_folder() == ROOT / "queries"
    assert demo_folder() == ROOT / "demo_parquet"


def test_files_come_in_the_order_of_their_numbers() -> None:
    """The number in front of a name is the order; the name comes without it."""
    paths = sorted((queries_folder() / "views").glob("*.sql"))
    assert [file.name for file in sql_files("views")] == [path.stem[4:] for path in paths]


@pytest.mark.parametrize("folder", FOLDERS)
def test_numbers_have_three_digits_and_none_comes_twice(folder: str) -> None:
    """A number stands for one file, so that the order is one, and so does a name."""
    stems = [path.stem for path in (queries_folder() / folder).glob("*.sql")]
    numbers = [re.fullmatch(r"(\d{3})_([a-z_]+)", stem) for stem in stems]
    assert [stem for stem, found in zip(stems, numbers, strict=True) if found is None] == []
    assert len({found[1] for found in numbers if found}) == len(stems)
    assert len({found[2] for found in numbers if found}) == len(stems)


def test_unknown_name_lists_the_known_ones() -> None:
    """A file that is not there is told with the names there are."""
    with pytest.raises(UsageError, match=r"no query named 'fft'(?s:.*)as_of, attribute_latest"):
        sql_file("views", "fft")


def test_unknown_folder_has_no_files() -> None:
    """A folder that is not there holds nothing, as `queries/migrations` before the first of them."""
    assert sql_files("nowhere") == ()


@pytest.mark.parametrize("file", FILES, ids=lambda file: f"{file.folder}-{file.name}")
def test_file_opens_with_its_title(file: SqlFile) -> None:
    """A file opens with a comment that says what it is, and holds at least one statement."""
    assert file.text.startswith("-- ")
    assert file.title
    assert file.statements


def test_plain_statements_leave_comments_out() -> None:
    """Engines without COMMENT ON get the other statements, also where a remark stands before one."""
    text = "-- t\nCREATE VIEW v AS SELECT 1;\n-- why\nCOMMENT ON VIEW v IS 'a; b';\n"
    file = SqlFile("views", "v", text)
    assert len(file.statements) == 2
    assert file.plain_statements == ("-- t\nCREATE VIEW v AS SELECT 1",)


@pytest.mark.parametrize(
    ("text", "statements"),
    [
        ("", ()),
        ("-- only a remark; no statement\n", ()),
        ("SELECT 1", ("SELECT 1",)),
        ("SELECT ';'; SELECT 'it''s;'", ("SELECT ';'", "SELECT 'it''s;'")),
        ('SELECT "a;b" - 1;;', ('SELECT "a;b" - 1',)),
        ("SELECT 1 -- one; two\n; SELECT 2", ("SELECT 1 -- one; two", "SELECT 2")),
    ],
)
def test_split_statements(text: str, statements: tuple[str, ...]) -> None:
    """Semicolons in strings, quoted names and remarks end no statement."""
    assert split_statements(text) == statements
