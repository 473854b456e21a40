"""Runs views and questions over the plants of a lake on DuckDB, plant by plant, on this machine.

Each plant has a schema of its own with its tables and views, so that the files of `queries/views`
run as they are and a plant reads its own partitions alone. A question over many plants sees each
view as all plants' rows, plant first.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import reduce
from pathlib import Path

import duckdb
import polars as pl
import pyarrow.dataset as arrow_dataset
import pyarrow.parquet as pq

from eol.fleet.asked import DATE, Asked
from eol.fleet.closure import behind, named_in
from eol.fleet.lake import Lake, PlantParts
from eol.fleet.parts import BATCH_ROWS
from eol.sqlfiles import SqlFile, sql_file
from eol.store.connect import MEMORY_LIMIT, open_apart
from eol.store.database import Database, bound, quoted

PLANT = "plant"


@contextmanager
def duckdb_engine(lake: Lake) -> Iterator[DuckdbEngine]:
    """Open DuckDB in memory over a lake.

    Raises:
        StoreError: memory or disk for spilling is short, or a file of the lake cannot be read.
    """
    with (
        tempfile.TemporaryDirectory(prefix="eol-fleet-") as spill,
        open_apart({"memory_limit": MEMORY_LIMIT, "temp_directory": spill}) as database,
    ):
        yield DuckdbEngine(database, lake)


class DuckdbEngine:
    """A connection with a schema for each plant; tables and views are made when they are first read."""

    def __init__(self, database: Database, lake: Lake) -> None:
        self.database = database
        self.lake = lake
        self._made: set[tuple[str, str]] = set()

    def rows(self, asked: Asked) -> pl.DataFrame:
        """Return the rows, the plant first; times are UTC."""
        frames: list[pl.DataFrame] = [relation.pl() for relation in self._relations(asked)]
        return pl.concat(frames)

    def write(self, asked: Asked, path: Path) -> None:
        """Write the rows as one Parquet file, plant by plant."""
        writer: pq.ParquetWriter | None = None
        try:
            for relation in self._relations(asked):
                rows = relation.to_arrow_reader(BATCH_ROWS)
                writer = writer or pq.ParquetWriter(path, rows.schema, compression="zstd")
                for batch in rows:
                    writer.write_batch(batch)
        finally:
            if writer is not None:
                writer.close()

    def _relations(self, asked: Asked) -> Iterator[duckdb.DuckDBPyRelation]:
        if not asked.is_view:
            yield self._question(asked)
            return
        for parts in self.lake.plants:
            self._make_all(parts, asked.file)
            yield _within(self._of_plant(parts.plant, asked.file.name), asked)

    def _question(self, asked: Asked) -> duckdb.DuckDBPyRelation:
        """Run a question over all plants: what it names is there as all plants' rows."""
        self.database.connection.execute("USE memory.main")
        for parts in self.lake.plants:
            self._make_all(parts, asked.file)
        for name in named_in(asked.file):
            each = [self._of_plant(parts.plant, name) for parts in self.lake.plants]
            reduce(lambda one, other: one.union(other), each).create_view(name, replace=True)
        (statement,) = asked.file.plain_statements
        return self.database.connection.sql(statement, params=bound(statement, asked.values))

    def _of_plant(self, plant: str, name: str) -> duckdb.DuckDBPyRelation:
        relation = self.database.connection.table(f"{quoted(plant)}.{quoted(name)}")
        return relation.select(
            duckdb.ConstantExpression(plant).alias(PLANT), duckdb.StarExpression()
        )

    def _make_all(self, parts: PlantParts, file: SqlFile) -> None:
        """Make the tables and views of a plant that a file reads, and the file itself where it is a view."""
        need = behind(file)
        self.database.template("lake", "plant_schema", {"plant": quoted(parts.plant)})
        self.database.template("lake", "enter", {"plant": quoted(parts.plant)})
        for table in need.tables:
            if self._is_new(parts, table):
                self._make_table(parts, table)
        for view in (*need.views, *([file] if file.folder == "views" else [])):
            if self._is_new(parts, view.name):
                for statement in view.plain_statements:
                    self.database.execute(statement, {})
        self.database.template("lake", "enter", {"plant": "memory.main"})

    def _is_new(self, parts: PlantParts, name: str) -> bool:
        new = (parts.plant, name) not in self._made
        self._made.add((parts.plant, name))
        return new

    def _make_table(self, parts: PlantParts, table: str) -> None:
        """Read a table from its parts; one without parts is an empty table."""
        place, paths = self.lake.place, parts.paths(table)
        files = [place.full(path) for path in paths]
        if not files:
            for statement in sql_file("schema", table).plain_statements:
                self.database.execute(statement, {})
        elif place.local is not None:
            relation = self.database.connection.read_parquet(files, hive_partitioning=False)
            relation.create_view(table)
        else:
            rows = arrow_dataset.dataset(files, filesystem=place.files, format="parquet")
            source = f"{parts.plant}:{table}"
            self.database.connection.register(source, rows)
            names = {"table": quoted(table), "source": quoted(source)}
            self.database.template("lake", "table", names)


def _within(relation: duckdb.DuckDBPyRelation, asked: Asked) -> duckdb.DuckDBPyRelation:
    """Keep the production dates asked for, where the view has one."""
    if DATE not in relation.columns:
        return relation
    column = duckdb.ColumnExpression(DATE)
    if asked.first is not None:
        relation = relation.filter(column >= duckdb.ConstantExpression(asked.first))
    if asked.last is not None:
        relation = relation.filter(column <= duckdb.ConstantExpression(asked.last))
    return relation
