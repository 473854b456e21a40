"""Analyst SQL on the published copy: read only, one answer as a frame."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import polars as pl

from eol.ask.limits import Limits, Stuck
from eol.ask.session import open_session
from eol.plant.folder import PlantFolder


def ask_copy(
    folder: PlantFolder,
    statement: str,
    values: Mapping[str, object] | None = None,
    *,
    attached: Mapping[str, Path] | None = None,
    limits: Limits | None = None,
    stuck: Stuck | None = None,
) -> pl.DataFrame:
    """Run one statement on the published copy.

    Args:
        folder: the plant folder.
        statement: one SQL statement; it cannot write, and cannot reach other files.
        values: values bound to `$name`.
        attached: other data to read beside it, paths by name.
        limits: how long it may run and how much memory it may take.
        stuck: called where it goes on although it was stopped.

    Returns:
        The rows, times in UTC.

    Raises:
        UsageError: the statement is wrong or goes past a limit; the message is DuckDB's where it has one.
        StoreError: nothing has been published yet.
    """
    with open_session(folder, attached=attached, limits=limits, stuck=stuck) as session:
        return session.ask(statement, values)
