"""What the facts need of the published copy: named queries and views, as frames."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Protocol

import polars as pl


class Reader(Protocol):
    """Reads named SQL files and views; the published copy of the store is one."""

    def run(self, folder: str, name: str, /, **values: object) -> pl.DataFrame:
        """Run one named file of `queries/` with its parameters bound by name."""
        ...

    def view(self, name: str, /, **equals: object) -> pl.DataFrame:
        """Return the rows of one view or table whose columns equal what is given."""
        ...


Row = dict[str, Any]
"""One row of a frame by column name; null is None."""


def rows(frame: pl.DataFrame) -> list[Row]:
    """Return the rows of a frame as dicts, in order."""
    return list(frame.iter_rows(named=True))


def whole(value: Any) -> int:
    """Return a count; null counts nothing."""
    return 0 if value is None else int(value)


def total(values: Iterable[Any]) -> int:
    """Add counts up; null counts nothing."""
    return sum(whole(value) for value in values)
