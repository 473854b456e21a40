"""The dictionary: every table, view and column of a copy in words."""

from __future__ import annotations

import pytest

from eol.ask.dictionary import Dictionary, dictionary, unit_of
from eol.ask.rules import counting_rules
from eol.errors import UsageError
from eol.plant.folder import PlantFolder
from eol.sqlfiles import sql_files


@pytest.fixture(scope="module")
def words(small_plant: PlantFolder) -> Dictionary:
    """The dictionary of a small plant."""
    return dictionary(small_plant)


def test_all_is_documented(words: Dictionary) -> None:
    """100 % of tables, views and columns say what they are, those of losing versions too."""
    assert [r.name for r in words.relations if not r.comment] == []
    assert [(r.name, c.name) for r in words.relations for c in r.columns if not c.comment] == []


def test_all_is_there(words: Dictionary) -> None:
    """Every file of a table or view is in it, views first."""
    names = [relation.name for relation in words.relations]
    views = [file.name for file in sql_files("views")]
    tables = [
        file.name for file in sql_files("schema") if file.name not in {"superseded", "amended_run"}
    ]
    assert names[: len(views) + 1] == sorted([*views, "amended_run"])
    assert set(tables) <= set(names)
    assert "superseded.run" in names


def test_units(words: Dictionary) -> None:
    """Each number, date and time has a unit; a text has none."""
    kinds = {"BIGINT", "INTEGER", "DOUBLE", "DATE", "TIMESTAMP WITH TIME ZONE", "BOOLEAN"}
    for relation in words.relations:
        for column in relation.columns:
            assert bool(column.unit) == (column.type in kinds), (relation.name, column.name)


@pytest.mark.parametrize(
    ("view", "column", "unit"),
    [
        ("open_unit", "hours", "h"),
        ("fail_to_clear", "minutes", "min"),
        ("feed_status", "silent_for", "s"),
        ("ftt_by_shift", "ftt", "share, 0 to 1"),
        ("dphu_by_shift", "dphu", "per 100 units"),
        ("pareto_by_shift", "defects", "whole number"),
        ("run", "started_at", "UTC"),
    ],
)
def test_unit_of_a_column(words: Dictionary, view: str, column: str, unit: str) -> None:
    """The unit is the one that the comment tells."""
    [found] = [c for c in words.relation(view).columns if c.name == column]
    assert found.unit == unit == unit_of(found.type, found.comment)


def test_rules_cited_are_there(words: Dictionary) -> None:
    """A comment cites no rule that there is not, and some rules are cited."""
    cited = {
        n for r in words.relations for n in (*r.rules, *(m for c in r.columns for m in c.rules))
    }
    assert {3, 4, 7, 8, 9, 11, 14, 16} <= cited <= set(counting_rules())


def test_frame_has_a_row_a_column(words: Dictionary) -> None:
    """As a frame: one row a column, to filter and search."""
    frame = words.frame
    assert frame.height == sum(len(r.columns) for r in words.relations)
    assert frame.filter(frame["name"] == "ftt_by_shift")["column"].to_list()[:3] == [
        "production_date",
        "shift",
        "crew",
    ]


def test_unknown_name_names_the_nearest(words: Dictionary) -> None:
    """A name that is not there is told with the one that is most like it."""
    with pytest.raises(UsageError, match="Did you mean ftt_by_shift"):
        words.relation("fft_by_shift")
