"""Runs views and questions over all plants of a lake at once on Spark, a cluster or this machine.

Every table is one relation with the plant as a column, read by partition; every view is lifted to
all plants, so that a view is one job however many plants there are. Views of what plants declare
(the catalogue) are small and are read again and again: DuckDB works them out here, and Spark gets
their rows.
"""

from __future__ import annotations

import os
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import reduce
from pathlib import Path
from typing import TYPE_CHECKING, Any

import polars as pl

from eol.errors import EngineError
from eol.fleet import layout
from eol.fleet.asked import DATE, Asked
from eol.fleet.closure import behind
from eol.fleet.lake import Lake
from eol.fleet.on_duckdb import PLANT, duckdb_engine
from eol.fleet.settings import SparkSettings, spark_settings
from eol.sqlfiles import SqlFile

if TYPE_CHECKING:
    from pyspark.sql import DataFrame, SparkSession

KEPT = ("as_of", "classed_finding", "defect_all", "lacking_proof", "shift_cover")
"""Views of few rows that other views read several times: Spark would plan and work out each of them
anew every time. Once computed they are kept, until the engine is closed."""

LOCAL_CONF = {
    "spark.sql.session.timeZone": "UTC",
    "spark.sql.shuffle.partitions": "8",
    "spark.driver.bindAddress": "127.0.0.1",
    "spark.driver.host": "127.0.0.1",
    "spark.driver.memory": "4g",
    "spark.sql.maxPlanStringLength": "100000",
    "spark.ui.enabled": "false",
    "spark.ui.showConsoleProgress": "false",
}
"""For a session on this machine: nothing listens to the network."""


@contextmanager
def spark_engine(lake: Lake, said: SparkSettings | None = None) -> Iterator[SparkEngine]:
    """Open a Spark session over a lake.

    Raises:
        EngineError: pyspark is missing, the session cannot be had, or Spark refuses a statement.
    """
    settings = spark_settings(lake.place, said)
    errors = _errors()
    try:
        with _session(settings) as session:
            engine = SparkEngine(session, lake, settings)
            yield engine
            engine.forget()
    except errors as error:
        raise EngineError(
            f"Spark refuses: {str(error).strip().splitlines()[0]}",
            where=settings.remote or settings.master,
            hint="See that Spark is reached, and reads the lake by this name (lake = in fleet.toml).",
        ) from error


class SparkEngine:
    """A session with a relation for each table and view, made when they are first read."""

    def __init__(self, session: SparkSession, lake: Lake, settings: SparkSettings) -> None:
        self.session = session
        self.lake = lake
        self.root = settings.lake or lake.place.full("").rstrip("/")
        self._made: set[str] = set()
        self._kept: list[DataFrame] = []
        names = [(name,) for name in lake.names]
        session.createDataFrame(names, f"{PLANT} STRING").createOrReplaceTempView("lake_plant")

    def rows(self, asked: Asked) -> pl.DataFrame:
        """Return the rows, the plant first; times are UTC."""
        found = pl.from_arrow(self._frame(asked).toArrow())
        assert isinstance(found, pl.DataFrame)
        return found.with_columns(pl.col(pl.Datetime).cast(pl.Datetime("us", "UTC")))

    def write(self, asked: Asked, path: Path) -> None:
        """Write the rows as a folder of Parquet parts; the path is one that Spark's machines reach."""
        self._frame(asked).write.mode("overwrite").parquet(str(path.absolute()))

    def _frame(self, asked: Asked) -> DataFrame:
        from eol.fleet.spark_sql import question_sql

        need = behind(asked.file)
        for table in need.tables:
            self._make(table, lambda name: self._table(name))
        for view in (*need.views, *([asked.file] if asked.is_view else [])):
            self._make(view.name, lambda _, view=view: self._view(view))
        if not asked.is_view:
            return self.session.sql(question_sql(asked.file, asked.values))
        return _within(self.session.table(asked.file.name), asked)

    def _make(self, name: str, make: Any) -> None:
        if name not in self._made:
            make(name).createOrReplaceTempView(name)
            self._made.add(name)

    def _view(self, view: SqlFile) -> DataFrame:
        from eol.fleet.spark_sql import view_sql

        if set(behind(view).tables) <= set(layout.DECLARED):
            with duckdb_engine(self.lake) as engine:
                return self._handed(engine.rows(Asked(view)))
        rows = self.session.sql(view_sql(view))
        if view.name in KEPT:
            self._kept.append(rows.cache())
        return rows

    def _handed(self, rows: pl.DataFrame) -> DataFrame:
        """Hand rows to Spark; of none it would not know the columns."""
        from pyspark.sql.pandas.types import from_arrow_schema

        table = rows.to_arrow()
        if rows.height:
            return self.session.createDataFrame(table)
        return self.session.createDataFrame([], from_arrow_schema(table.schema))

    def forget(self) -> None:
        """Give back what was kept in the cluster's memory."""
        for rows in self._kept:
            rows.unpersist()
        self._kept.clear()

    def _table(self, table: str) -> DataFrame:
        """Read a table of all plants: by partition; a plant that is putting parts in place by its files."""
        from pyspark.sql import functions as f

        from eol.fleet.spark_sql import column_names, table_schema

        schema = table_schema(table)
        order = [f.col(PLANT), *(f.col(f"`{name}`") for name in column_names(table))]
        settled = [p.plant for p in self.lake.plants if not p.waiting and p.paths(table)]
        frames = []
        if settled:
            partitions = f"{schema}, {PLANT} STRING"
            if table in layout.MONTHLY:
                partitions += ", production_month STRING"
            all_plants = self.session.read.schema(partitions).parquet(f"{self.root}/{table}")
            frames.append(all_plants.where(f.col(PLANT).isin(settled)).select(*order))
        for parts in self.lake.plants:
            paths = [f"{self.root}/{path}" for path in parts.paths(table)]
            if parts.waiting and paths:
                rows = self.session.read.schema(schema).parquet(*paths)
                frames.append(rows.withColumn(PLANT, f.lit(parts.plant)).select(*order))
        if not frames:
            return self.session.createDataFrame([], f"{PLANT} STRING, {schema}")
        return reduce(lambda one, other: one.unionAll(other), frames)


def _within(rows: DataFrame, asked: Asked) -> DataFrame:
    """Keep the production dates asked for, where the view has one."""
    from pyspark.sql import functions as f

    if DATE not in rows.columns:
        return rows
    if asked.first is not None:
        rows = rows.where(f.col(DATE) >= f.lit(asked.first))
    if asked.last is not None:
        rows = rows.where(f.col(DATE) <= f.lit(asked.last))
    return rows


@contextmanager
def _session(settings: SparkSettings) -> Iterator[SparkSession]:
    """Have a session of its own, so that names here are nobody else's; one that was there goes on."""
    import pyspark
    from pyspark.sql import SparkSession

    if settings.remote:
        # The client alone, without Spark's own jars, looks for them while it loads and ends the process.
        os.environ.setdefault("SPARK_HOME", str(Path(pyspark.__file__).parent))
        with _quiet():
            session = SparkSession.builder.remote(settings.remote).create()
        ends = True
    else:
        there = SparkSession.getActiveSession()
        session = there.newSession() if there else _local_session(settings)
        ends = there is None
    session.conf.set("spark.sql.session.timeZone", "UTC")
    try:
        yield session
    finally:
        if ends:
            session.stop()


def _local_session(settings: SparkSettings) -> SparkSession:
    from pyspark.sql import SparkSession

    builder = SparkSession.builder.appName("eol fleet").master(settings.master)
    conf = {**(LOCAL_CONF if settings.master.startswith("local") else {}), **settings.conf}
    for key, value in conf.items():
        builder = builder.config(key, value)
    return builder.getOrCreate()


def _errors() -> tuple[type[Exception], ...]:
    """Spark's own errors; that pyspark or sqlglot is missing is told at once."""
    try:
        with _quiet():
            import sqlglot  # noqa: F401
            from pyspark.errors import PySparkException
            from pyspark.sql import SparkSession  # noqa: F401
    except ImportError as error:
        raise EngineError(
            f"Spark is asked for, but {error.name or 'pyspark'} is not installed",
            hint='Install it with: pip install "eol-pareto[spark]" (Spark on this machine needs Java 17 too).',
        ) from error
    with suppress(ImportError):  # a client of Spark Connect comes without it
        from py4j.protocol import Py4JError

        return PySparkException, Py4JError
    return (PySparkException,)


@contextmanager
def _quiet() -> Iterator[None]:
    """Leave out that pyspark warns of a pandas it has not met; no row here goes through pandas."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", FutureWarning)
        yield
