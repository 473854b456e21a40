"""Asks a lake of many plants: a view of `queries/views` over all of them, or a question of `queries/fleet`."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TypeVar

import polars as pl

from eol.errors import EolError, StoreError, UsageError
from eol.fleet.asked import Asked, Engine, Opener
from eol.fleet.closure import behind, fleet_file
from eol.fleet.lake import Lake, read_lake
from eol.fleet.place import open_place
from eol.fleet.settings import SparkSettings
from eol.sqlfiles import SqlFile

ENGINES = ("duckdb", "spark")
TRIES = 3
ORDER = ("rank", "plant", "production_date", "shift", "crew", "test", "code", "root_code", "vin")
"""Columns that name a row, in the order in which rows are sorted by them."""

_VALUE = re.compile(r"\$(\w+)")
Values = Mapping[str, str | int | date | None]
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Fleet:
    """Plants that publish into one lake, and how they are asked.

    Args:
        lake: a folder, or a URI that pyarrow's filesystems know.
        engine: `duckdb` on this machine, or `spark`.
        plants: the plants asked for; none named: all.
        spark: how Spark is reached; None: as the lake's `fleet.toml` and the environment say.
    """

    lake: str | Path
    engine: str = "duckdb"
    plants: tuple[str, ...] = ()
    spark: SparkSettings | None = None


def ask_fleet(
    fleet: Fleet | str | Path,
    name: str,
    *,
    first: date | None = None,
    last: date | None = None,
    values: Values | None = None,
) -> pl.DataFrame:
    """Return the rows of a view or question over the plants of a lake.

    Args:
        fleet: the fleet, or its lake alone: all plants, on DuckDB.
        name: a view, or a question over many plants.
        first: first production date of a view that has one; None for all before.
        last: last production date.
        values: values that a question names with `$`.

    Returns:
        The view's columns with the plant before them, sorted by what names a row; times are UTC. The same
        rows on every engine.

    Raises:
        UsageError: there is no such view, question or engine, or a value is lacking.
        EngineError: the lake is empty or of another schema version, a plant lacks a table, or Spark is missing.
        StoreError: the lake cannot be read, or changed during each try.
    """
    asked = _asked(name, first, last, values)
    return in_order(steady(fleet, [asked.file], lambda opened: opened.rows(asked)))


def write_fleet(
    fleet: Fleet | str | Path,
    name: str,
    path: Path,
    *,
    first: date | None = None,
    last: date | None = None,
    values: Values | None = None,
) -> Path:
    """Write the rows of a view over the plants of a lake as Parquet: one file, from Spark a folder of parts.

    Args:
        fleet: the fleet, or its lake alone.
        name: a view, or a question over many plants.
        path: the file or folder; what is there is replaced once the rows are written whole.
        first: first production date of a view that has one.
        last: last production date.
        values: values that a question names with `$`.

    Raises:
        UsageError, EngineError, StoreError: as `ask_fleet`; or the rows cannot be written.
    """
    if not path.parent.is_dir():
        raise StoreError("there is no such folder", where=str(path.parent), hint="Make it first.")
    asked = _asked(name, first, last, values)
    beside = path.with_name(f"_{path.name}.{os.getpid()}.tmp")
    try:
        steady(fleet, [asked.file], lambda opened: opened.write(asked, beside))
        _remove(path)
        beside.replace(path)
    except OSError as error:
        raise StoreError(
            f"the rows cannot be written: {error.strerror or error}", where=str(path)
        ) from error
    finally:
        _remove(beside)
    return path


def _asked(
    name: str,
    first: date | None,
    last: date | None,
    values: Values | None,
) -> Asked:
    file = fleet_file(name)
    given = {"first_date": first, "last_date": last, **(values or {})}
    lacking = sorted(set(_VALUE.findall(" ".join(file.plain_statements))) - set(given))
    if lacking:
        raise UsageError(
            f"'{name}' asks for {', '.join(lacking)}",
            hint="Name them: --part and --lot on the command line, values={…} in Python.",
        )
    return Asked(file, first, last, given)


def in_order(rows: pl.DataFrame) -> pl.DataFrame:
    """Sort rows by what names them, so that every engine's look the same."""
    named = [name for name in ORDER if name in rows.columns]
    rest = [
        name
        for name, kind in rows.schema.items()
        if name not in named and kind not in (pl.Float64, pl.Boolean)
    ]
    return rows.sort(*named, *rest, nulls_last=True)


def steady(fleet: Fleet | str | Path, files: Iterable[SqlFile], work: Callable[[Engine], T]) -> T:
    """Do some work on a lake that stands still meanwhile: where a plant published during it, do it again.

    Args:
        fleet: the fleet, or its lake alone.
        files: the views and questions that the work asks.
        work: what to do with the open engine; it may be done more than once.

    Raises:
        UsageError: there is no such engine.
        EngineError: the lake or the engine cannot be used.
        StoreError: the lake cannot be read, or changed during each try.
    """
    known = fleet if isinstance(fleet, Fleet) else Fleet(fleet)
    place, opener = open_place(known.lake), _opener(known.engine, known.spark)
    tables = {table for file in files for table in behind(file).tables}
    for _ in range(TRIES):
        seen = read_lake(place, known.plants)
        try:
            seen.require(tables)
            with opener(seen) as opened:
                done = work(opened)
        except EolError:
            if seen.unchanged():
                raise
            continue
        if seen.unchanged():
            return done
    raise StoreError(
        f"plants published into the lake during each of {TRIES} tries",
        where=place.name,
        hint="Ask again, fewer plants at once (--plants), or let the plants publish at set hours.",
    )


def _opener(engine: str, spark: SparkSettings | None) -> Callable[[Lake], Opener]:
    if engine == "duckdb":
        from eol.fleet.on_duckdb import duckdb_engine

        return duckdb_engine
    if engine == "spark":
        from eol.fleet.on_spark import spark_engine

        return lambda lake: spark_engine(lake, spark)
    raise UsageError(f"there is no engine '{engine}'", hint=f"Engines: {', '.join(ENGINES)}.")


def _remove(path: Path) -> None:
    if path.is_dir():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)
