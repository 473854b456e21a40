"""The line that names the columns: what may stand before it, and the names it gives."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from eol.errors import FeedFileError
from eol.feeds.raw import FILE_ROW

_COMMENT_MARKS = ("#", "//")


def is_comment(line: str) -> bool:
    """Tell a comment line, also one that a spreadsheet has put in quotes."""
    return line.lstrip(' \t"').startswith(_COMMENT_MARKS)


def column_names(cells: Sequence[str], *, where: str) -> list[str]:
    """Return one name a column, without outer blanks; a column without a name is `column_N`.

    Raises:
        FeedFileError: no cell holds a name, a name is doubled, or a cell holds what is no text.
    """
    stripped = [cell.strip() for cell in cells]
    if not any(stripped):
        raise FeedFileError("no line names the columns", where=where)
    _refuse_unprintable(stripped, where)
    names = [name or f"column_{number}" for number, name in enumerate(stripped, start=1)]
    names = [f"{FILE_ROW}_sent" if name == FILE_ROW else name for name in names]
    doubled = [name for name, count in Counter(names).items() if count > 1]
    if doubled:
        raise FeedFileError(
            f"the header names {_listed(doubled)} more than once",
            where=where,
            hint="Give each column a name of its own and load the file again.",
        )
    return names


def _refuse_unprintable(names: Sequence[str], where: str) -> None:
    damaged = [
        name
        for name in names
        if any(character < " " and character not in "\r\n\t" for character in name)
    ]
    if damaged:
        raise FeedFileError(
            f"the header is damaged or the file is no text: {damaged[0][:80]!r}", where=where
        )


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f"'{name}'" for name in names)
