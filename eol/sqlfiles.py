"""Finds and reads the SQL files of `queries/`: the only place that knows where they lie.

In a checkout `queries/` stands beside the package, in an installed wheel inside it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from eol.errors import UsageError

_NUMBER = re.compile(r"^\d+_")
_COMMENT_STATEMENT = re.compile(r"^\s*COMMENT\s+ON\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SqlFile:
    """One file of `queries/`: its folder, its name without the order number, and its text."""

    folder: str
    name: str
    text: str

    @property
    def title(self) -> str:
        """The first line of the file's opening comment."""
        return self.text.splitlines()[0].lstrip("- ").strip()

    @property
    def statements(self) -> tuple[str, ...]:
        """The statements of the file, in order, without the closing semicolons."""
        return split_statements(self.text)

    @property
    def plain_statements(self) -> tuple[str, ...]:
        """The statements without COMMENT ON, for engines that have none."""
        return tuple(s for s in self.statements if not _COMMENT_STATEMENT.match(_bare(s)))


def queries_folder() -> Path:
    """Return the folder of the SQL files, in a wheel, an editable install or a checkout."""
    inside = Path(__file__).parent / "queries"
    return inside if inside.is_dir() else Path(__file__).parent.parent / "queries"


def demo_folder() -> Path:
    """Return the folder of the demo plant's files, found the same way."""
    inside = Path(__file__).parent / "demo_parquet"
    return inside if inside.is_dir() else Path(__file__).parent.parent / "demo_parquet"


@cache
def sql_files(folder: str) -> tuple[SqlFile, ...]:
    """Return the files of one folder of `queries/` in the order of their numbers."""
    paths = sorted((queries_folder() / folder).glob("*.sql"))
    return tuple(
        SqlFile(folder, _NUMBER.sub("", path.stem), path.read_text(encoding="utf-8"))
        for path in paths
    )


def sql_file(folder: str, name: str) -> SqlFile:
    """Return one named file.

    Raises:
        UsageError: there is no such file; the message lists the names there are.
    """
    files = {file.name: file for file in sql_files(folder)}
    if name not in files:
        raise UsageError(
            f"there is no query named '{name}'",
            where=f"queries/{folder}",
            hint="Known names: " + ", ".join(files),
        )
    return files[name]


def split_statements(text: str) -> tuple[str, ...]:
    """Split SQL at its semicolons, leaving those in strings and comments alone.

    Example:
        >>> split_statements("SELECT ';' AS a; -- done; really")
        ("SELECT ';' AS a",)
    """
    tokens = re.findall(r"--[^\n]*|'(?:[^']|'')*'|\"[^\"]*\"|;|[^-;'\"]+|-", text)
    statements, current = [], ""
    for token in tokens:
        if token == ";":
            statements.append(current)
            current = ""
        else:
            current += token
    statements.append(current)
    return tuple(s.strip() for s in statements if _bare(s))


def _bare(statement: str) -> str:
    """The statement without its line comments and outer blanks."""
    return re.sub(r"--[^\n]*", "", statement).strip()
