"""One conformance suite: every view over three plants gives on Spark the rows that DuckDB gives."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import made_up_lake as made
import pytest
from agreeing import differing_views

from eol.fleet.asked import Asked, Engine
from eol.fleet.lake import Lake, read_lake
from eol.fleet.on_spark import spark_engine
from eol.fleet.place import open_place
from eol.fleet.settings import SparkSettings
from eol.sqlfiles import sql_file

SMALL = {"spark.sql.shuffle.partitions": "2", "spark.log.level": "ERROR"}


@pytest.fixture(scope="module")
def on_sail(lake: Lake, sail: SparkSettings) -> Iterator[Engine]:
    """The same SQL as for Spark, run without a Java machine."""
    with spark_engine(lake, sail) as engine:
        yield engine


def test_plant_that_has_nothing(sail: SparkSettings, tmp_path: Path) -> None:
    """A plant without a catalogue, a run or a unit is no error: views of it have no rows."""
    made.publish(made.made_plant(tmp_path / "empty", {}), tmp_path / "lake", "P1")
    with spark_engine(read_lake(open_place(tmp_path / "lake")), sail) as engine:
        heights = [
            engine.rows(Asked(sql_file("views", name))).height for name in ("as_of", "defect")
        ]
    assert heights == [1, 0]


@pytest.mark.slow
def test_sail_gives_duckdbs_rows_of_every_view(on_duckdb: Engine, on_sail: Engine) -> None:
    """Every view gives the same rows on Sail."""
    assert differing_views(on_duckdb, on_sail) == {}


@pytest.mark.spark
@pytest.mark.filterwarnings("ignore")
def test_spark_gives_duckdbs_rows(lake: Lake, on_duckdb: Engine) -> None:
    """Every view gives the same rows on Spark itself."""
    with spark_engine(lake, SparkSettings(master="local[2]", conf=SMALL)) as on_spark:
        assert differing_views(on_duckdb, on_spark) == {}
