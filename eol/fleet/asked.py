"""What is asked of a fleet: a view or question, its bounds, and the values that a question names."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Protocol

import polars as pl

from eol.fleet.lake import Lake
from eol.sqlfiles import SqlFile

DATE = "production_date"


@dataclass(frozen=True, slots=True)
class Asked:
    """One view of `queries/views`, or one question of `queries/fleet`.

    Args:
        file: the file.
        first: first production date wanted, None for all before; of views that have one.
        last: last production date wanted, None for all after.
        values: values bound to `$name` in a question.
    """

    file: SqlFile
    first: date | None = None
    last: date | None = None
    values: Mapping[str, str | int | date | None] = field(default_factory=dict)

    @property
    def is_view(self) -> bool:
        """Tell whether it is a view of one plant, which is run over all of them."""
        return self.file.folder == "views"


class Engine(Protocol):
    """What runs views and questions over the plants of one lake."""

    def rows(self, asked: Asked) -> pl.DataFrame:
        """Return the rows, the plant first; times are UTC."""

    def write(self, asked: Asked, path: Path) -> None:
        """Write the rows as Parquet: one file, or a folder of parts where the engine writes in parts."""


Opener = AbstractContextManager[Engine]

__all__ = ["DATE", "Asked", "Engine", "Lake", "Opener"]
