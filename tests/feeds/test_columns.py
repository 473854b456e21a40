"""The table of columns holds what plant.toml and the store call them."""

from __future__ import annotations

import re

import pytest

from eol.feeds.columns import COLUMNS, FIXED_FEEDS, Type, needed
from eol.plant.checks import FIXED_FEEDS as PLANT_FEEDS
from eol.plant.checks import RUN_COLUMNS
from eol.sqlfiles import sql_file

TABLES = {
    "units": "unit_sent",
    "attributes": "attribute",
    "unit_keys": "unit_key",
    "repairs": "repair",
    "events": "event",
    "lots": "lot",
    "defect_codes": "defect_code",
    "zones": "zone",
    "countermeasures": "countermeasure",
    "corrections": "correction",
    "shifts": "shift_window",
}


def stored(table: str) -> list[str]:
    """The columns of a table of the store, without those that loading adds."""
    columns = re.findall(r'^    "?(\w+)"? [A-Z]', sql_file("schema", table).text, re.MULTILINE)
    return [name for name in columns if name not in ("file_id", "file_row")]


def test_feeds_are_those_of_plant_toml() -> None:
    """Both lists of fixed feeds name the same."""
    assert set(FIXED_FEEDS) == set(PLANT_FEEDS)


@pytest.mark.parametrize("feed", TABLES)
def test_columns_are_those_of_the_store(feed: str) -> None:
    """A file with the store's column names needs no mapping."""
    assert [column.name for column in COLUMNS[feed]] == stored(TABLES[feed])


def test_a_test_has_the_columns_that_settings_know() -> None:
    """No condition can have the name of a column of its test."""
    assert {column.name for column in COLUMNS["test"]} | {"test"} == set(RUN_COLUMNS)


def test_words_stand_only_where_words_are_asked_for() -> None:
    """A column of words lists them, no other does."""
    for column in (column for columns in COLUMNS.values() for column in columns):
        assert bool(column.words) == (column.type is Type.WORD)


def test_needed_changes_nothing_else() -> None:
    """A column made required is the same column."""
    column = COLUMNS["readings"][-1]
    assert needed(column).required
    assert needed(column).name == column.name
