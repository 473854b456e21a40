"""One conformance suite: every view over three plants gives on Spark the rows that DuckDB gives."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from agreeing import differing_views

from eol.fleet.asked import Engine
from eol.fleet.lake import Lake
from eol.fleet.on_spark import spark_engine
from eol.fleet.settings import SparkSettings

SMALL = {"spark.sql.shuffle.partitions": "2", "spark.log.level": "ERROR"}
QUICK = frozenset(
    {
        "as_of",
        "attribute_latest",
        "catalogue",
        "shift_cover",
        "ftt_by_shift",
        "dphu_by_shift",
        "pareto_by_shift",
        "line_by_shift",
        "escape",
        "unchecked",
        "feed_status",
    }
)
"""Views that hold every kind of statement; the plain run asks these."""


@pytest.fixture(scope="module")
def on_sail(lake: Lake, sail: SparkSettings) -> Iterator[Engine]:
    """The same SQL as for Spark, run without a Java machine."""
    with spark_engine(lake, sail) as engine:
        yield engine


def test_sail_gives_duckdbs_rows(on_duckdb: Engine, on_sail: Engine) -> None:
    """Views give the same rows on Sail, which speaks Spark's SQL."""
    assert differing_views(on_duckdb, on_sail, QUICK) == {}


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
