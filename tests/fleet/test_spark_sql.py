"""The files of queries/ become Spark SQL, by the files themselves."""

from __future__ import annotations

from datetime import date

import pytest

from eol.errors import EngineError
from eol.fleet.layout import TABLES
from eol.fleet.spark_sql import column_names, question_sql, table_schema, view_sql
from eol.sqlfiles import SqlFile, sql_file


def test_view_has_the_plant_and_no_comment() -> None:
    """A view is one SELECT with the plant first; COMMENT statements are left out."""
    text = view_sql(sql_file("views", "station_latest"))
    assert text == (
        "SELECT `station_heard`.`plant` AS `plant`, `station_heard`.`station`, MAX(`station_heard`.`last_at`)"
        " AS `last_at` FROM `station_heard` GROUP BY `station_heard`.`plant`, `station_heard`.`station`"
    )


def test_view_that_is_not_portable_is_refused() -> None:
    """A file that differs between engines never reaches Spark."""
    file = SqlFile("views", "late", "CREATE VIEW late AS SELECT epoch(run.at) AS s FROM run")
    with pytest.raises(EngineError, match="epoch gives another type"):
        view_sql(file)


def test_question_has_its_values_written_in() -> None:
    """Values that a question names stand in it as literals, dates and null too."""
    file = SqlFile(
        "fleet", "some", "SELECT a.plant FROM a WHERE a.x = $part AND a.d >= $first_date"
    )
    text = question_sql(file, {"part": "it's", "first_date": date(2026, 9, 1)})
    assert text.endswith("`a`.`x` = 'it\\'s' AND `a`.`d` >= CAST('2026-09-01' AS DATE)")
    assert "CAST(NULL AS DATE)" in question_sql(file, {"part": "x", "first_date": None})


@pytest.mark.parametrize("table", TABLES)
def test_every_table_has_a_schema(table: str) -> None:
    """Each table of a lake has its columns in Spark's types, in the order of the store."""
    schema = table_schema(table)
    assert schema.count("`") == 2 * len(column_names(table))
    assert "VARCHAR" not in schema
