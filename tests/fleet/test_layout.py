"""Where the parts of a lake lie."""

from __future__ import annotations

import re

from eol.fleet.closure import behind
from eol.fleet.layout import KEY, TABLES, WHOLE, part_path, staged_path
from eol.sqlfiles import sql_files


def test_every_table_that_a_view_reads_is_published() -> None:
    """No view or question over many plants reads a table of the store that the lake lacks."""
    store = {file.name for file in sql_files("schema")}
    words = {
        word
        for file in (*sql_files("views"), *sql_files("fleet"))
        for word in re.findall(r"\b(?:FROM|JOIN)\s+(\w+)", file.text)
    }
    assert (words & store) - set(TABLES) == set()
    assert len(TABLES) == len(set(TABLES))


def test_views_of_declared_tables_are_few() -> None:
    """What is worked out on the driver are the catalogue and the newest run of each station."""
    small = [v.name for v in sql_files("views") if set(behind(v).tables) <= set(WHOLE)]
    assert small == ["catalogue", "station_latest"]


def test_part_waits_where_no_engine_looks() -> None:
    """The waiting place begins with `_` and ends in `.tmp`; its own name does not begin with `_`."""
    place = staged_path("P1", 3, part_path("run", "P1", "2026-03"), 1)
    assert place.startswith("_")
    assert place.endswith("/part-0.parquet.tmp")


def test_table_without_months_has_one_part() -> None:
    """What a plant declares lies in one part, without a month."""
    assert part_path("zone", "P1", "") == "zone/plant=P1/part-0.parquet"
    assert not set(KEY) & set(WHOLE)
