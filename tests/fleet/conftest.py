"""A lake of three made-up plants, made of the cases of tests/queries, and the engines over it."""

from __future__ import annotations

import os
import warnings
from collections.abc import Iterator
from pathlib import Path

import duckdb
import made_up_lake as made
import pytest

from eol.fleet.asked import Engine
from eol.fleet.lake import Lake, read_lake
from eol.fleet.on_duckdb import duckdb_engine
from eol.fleet.place import open_place
from eol.fleet.settings import SparkSettings

os.environ.setdefault("RUST_LOG", "error")  # pysail tells each session it opens


@pytest.fixture(scope="session")
def lake_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three plants, published into one lake; to read."""
    return made.three_plants(tmp_path_factory.mktemp("three plants"))


@pytest.fixture(scope="module")
def lake(lake_folder: Path) -> Lake:
    """The same lake as readers see it."""
    return read_lake(open_place(lake_folder))


@pytest.fixture(scope="module")
def on_duckdb(lake: Lake) -> Iterator[Engine]:
    """DuckDB over the three plants, plant by plant: what the other engines must give too."""
    with duckdb_engine(lake) as engine:
        yield engine


@pytest.fixture(scope="session")
def sail() -> Iterator[SparkSettings]:
    """A server that speaks Spark Connect on loopback, without a Java machine."""
    from pysail.spark import SparkConnectServer

    server = SparkConnectServer("127.0.0.1", 0)
    server.start(background=True)
    _, port = server.listening_address
    with warnings.catch_warnings():
        warnings.simplefilter(
            "ignore"
        )  # of pandas that pyspark has not met, and of sockets left open
        yield SparkSettings(remote=f"sc://127.0.0.1:{port}")
        server.stop()


@pytest.fixture
def store() -> Iterator[duckdb.DuckDBPyConnection]:
    """An empty store in memory, UTC."""
    connection = duckdb.connect(":memory:", config={"threads": 1})
    connection.execute("SET timezone = 'UTC'")
    yield connection
    connection.close()
