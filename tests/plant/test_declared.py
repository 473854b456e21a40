"""The tables that plant.toml declares."""

import re
from collections.abc import Callable
from datetime import UTC, datetime

import polars as pl
import pytest

from eol.plant.declared import declared_tables
from eol.plant.settings import Settings
from eol.sqlfiles import sql_file

SettingsOf = Callable[[str], Settings]
TYPES = {
    "VARCHAR": pl.String,
    "BIGINT": pl.Int64,
    "DOUBLE": pl.Float64,
    "DATE": pl.Date,
    "BOOLEAN": pl.Boolean,
    "TIMESTAMPTZ": pl.Datetime("us", "UTC"),
}


def utc(day: int, month: int = 1, hour: int = 0, year: int = 2026) -> datetime:
    """An instant."""
    return datetime(year, month, day, hour, tzinfo=UTC)


START = utc(31, 12, 23, 2025)
"""Midnight of 2026-01-01 in Berlin."""


@pytest.fixture
def table(settings_of: SettingsOf) -> Callable[[str, str], list[dict[str, object]]]:
    """Rows of one declared table of a few lines of plant.toml."""
    return lambda name, text: declared_tables(settings_of(text))[name].to_dicts()


Table = Callable[[str, str], list[dict[str, object]]]


def test_columns_and_types_are_the_store_s(settings_of: SettingsOf) -> None:
    """Each frame has just the columns of its table, in their order and type."""
    for name, frame in declared_tables(settings_of("")).items():
        body = sql_file("schema", name).statements[0].partition("(")[2]
        columns = re.findall(r'^\s*"?(\w+)"? ([A-Z]+),?$', body, re.MULTILINE)
        assert dict(frame.schema) == {column: TYPES[kind] for column, kind in columns}


def test_a_test_without_a_plan_is_required_of_every_unit(table: Table) -> None:
    """From the first day of the record on, by the plant's midnight."""
    assert table("test_plan", "") == [
        {"test": "water", "valid_from": START, "valid_to": None, "required": "every", "owner": None}
    ]


def test_a_plan_lasts_until_the_next(table: Table) -> None:
    """Rows come in the order of their days; the first without a day is from starts_on on."""
    text = (
        "[[test.water.plan]]\nvalid_from = 2026-07-01\nrequired = 'when_run'\n"
        "[[test.water.plan]]\napplies_when = 'drive=electric'\n"
    )
    change = utc(30, 6, 22)
    first, second = table("test_plan", text)
    assert (first["valid_from"], first["valid_to"]) == (START, change)
    assert (first["required"], first["owner"]) == ("every", "plan:water:2026-01-01")
    assert (second["valid_from"], second["valid_to"], second["owner"]) == (change, None, None)


def test_clauses_of_a_plan_are_rows(table: Table) -> None:
    """A row an accepted value, under the key that the plan names."""
    rows = table("applies", "[[test.water.plan]]\napplies_when = 'roof=opening & model=WAG|VAN'\n")
    assert {(row["owner"], row["valid_from"]) for row in rows} == {("plan:water:2026-01-01", START)}
    assert [(row["clause"], row["name"], row["value"]) for row in rows] == [
        (1, "roof", "opening"),
        (2, "model", "WAG"),
        (2, "model", "VAN"),
    ]


def test_limits_are_dated_a_condition(table: Table) -> None:
    """A new limit of one condition ends the old one of that condition alone."""
    text = (
        "[[test.water.condition]]\nname='p'\nlower=220\nmeasure_unit='kPa'\n"
        "[[test.water.condition]]\nname='d'\nrequired=false\n"
        "[[test.water.condition]]\nname='p'\nlower=230\nvalid_from=2026-02-01\n"
    )
    rows = table("condition_limit", text)
    spans = [(row["name"], row["lower"], row["valid_from"], row["valid_to"]) for row in rows]
    change = utc(31, 1, 23)
    assert spans == [("d", None, START, None), ("p", 220, START, change), ("p", 230, change, None)]
    assert [row["required"] for row in rows] == [False, True, True]


def test_comparisons_are_rows(table: Table) -> None:
    """A number and a text have a column each."""
    rows = table("defect_condition", "[test.water]\ndefect_when='rating <= 6 & severity != D'\n")
    assert [tuple(row.values()) for row in rows] == [
        ("water", "rating", "<=", 6.0, None),
        ("water", "severity", "!=", None, "D"),
    ]


def test_a_station_has_a_row_a_bay_and_a_row_an_alias(table: Table) -> None:
    """A station without bays has one row without bay."""
    text = (
        "[[station]]\nname='W1'\ntest='water'\nbays=['A','B']\nbay_alias={ 1 = 'A' }\n"
        "[[station]]\nname='W2'\ntest='water'\n"
    )
    rows = [(row["station"], row["bay"], row["alias"]) for row in table("station", text)]
    assert rows == [("W1", "A", None), ("W1", "A", "1"), ("W1", "B", None), ("W2", None, None)]


def test_tests_and_steps_keep_their_order(table: Table) -> None:
    """Positions count from one, and a test without a title is called by its name."""
    text = "[test.squeak_rattle]\nsteps=['b','a']\nlength=7.5\n[test.water]\ntitle='Rain'\n"
    tests = [(row["test"], row["title"], row["position"]) for row in table("test_definition", text)]
    assert tests == [("squeak_rattle", "Squeak rattle", 1), ("water", "Rain", 2)]
    steps = [(row["step"], row["position"]) for row in table("test_step", text)]
    assert steps == [("b", 1), ("a", 2)]


def test_what_disturbs_is_a_row_a_test(table: Table) -> None:
    """The field that is compared stands beside its value."""
    text = "[test.water]\n[test.wind]\n[[disturbs]]\nowner_area='glass'\ntests=['water','wind']\n"
    rows = [tuple(row.values()) for row in table("disturbs", text)]
    assert rows == [("owner_area", "glass", "water"), ("owner_area", "glass", "wind")]


def test_an_offset_is_told_by_the_bench_s_own_time(table: Table) -> None:
    """A day is its first instant by the wall clock; without an end the offset is open."""
    text = "[[clock_offset]]\nstation='E1'\nvalid_from=2026-09-03\nseconds=660\n"
    assert table("clock_offset", text) == [
        {"station": "E1", "valid_from": utc(2, 9, 22), "valid_to": None, "seconds": 660.0}
    ]


def test_weights_events_and_references_are_rows(table: Table) -> None:
    """Each severity class has its weight, each event of proof and each reference its row."""
    assert [row["weight"] for row in table("demerit_weight", "")] == [100.0, 50.0, 10.0, 1.0]
    assert [row["kind"] for row in table("proof_event", "")] == ["signed_off", "ship"]
    text = "[[reference]]\nvin='0ZZKREF0000000001'\ntest='water'\ncode='WL-SEAM'\n"
    assert [tuple(row.values()) for row in table("reference", text)] == [
        ("0ZZKREF0000000001", "water", "WL-SEAM", None)
    ]


def test_the_same_settings_give_the_same_tables(settings_of: SettingsOf) -> None:
    """Tables are compared to find a change of the past, so their rows have one order."""
    one, other = declared_tables(settings_of("")), declared_tables(settings_of(""))
    assert all(one[name].equals(other[name]) for name in one)
