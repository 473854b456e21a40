"""Marks tell which months of a table changed."""

from __future__ import annotations

from eol.fleet.layout import TABLES
from eol.fleet.marks import group, part_marks
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy


def test_each_table_has_a_mark(small_plant: PlantFolder) -> None:
    """A table without rows has one too: it was published, and is empty."""
    with open_copy(small_plant) as copy:
        marks = part_marks(copy)
    assert {mark.table for mark in marks} == set(TABLES)
    assert {(mark.month, mark.rows) for mark in marks if mark.table == "answer"} == {("", 0)}


def test_same_rows_give_the_same_marks(small_plant: PlantFolder) -> None:
    """A fingerprint depends on the rows alone, not on their order or the connection."""
    with open_copy(small_plant) as copy:
        first = part_marks(copy)
    with open_copy(small_plant) as copy:
        assert part_marks(copy) == first


def test_groups() -> None:
    """Readings go with their run, repairs with their unit, answers by their own date."""
    assert [group(table) for table in ("reading", "repair", "answer", "lot")] == [
        "by_run",
        "by_unit",
        "by_date",
        "whole",
    ]
