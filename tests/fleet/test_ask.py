"""A lake is asked at one moment: what was read while a plant published is read again."""

from __future__ import annotations

import sys
from pathlib import Path

import polars as pl
import pytest

from eol.errors import EngineError, StoreError, UsageError
from eol.fleet.ask import TRIES, Fleet, ask_fleet, write_fleet
from eol.fleet.lake import Lake


def test_view_over_some_plants(lake_folder: Path) -> None:
    """The plants asked for, and no others."""
    rows = ask_fleet(Fleet(lake_folder, plants=("west", "north")), "as_of")
    assert rows["plant"].to_list() == ["north", "west"]


def test_unknown_engine(lake_folder: Path) -> None:
    """An engine that is not there is told with those that are."""
    with pytest.raises(UsageError, match="no engine 'abacus'"):
        ask_fleet(Fleet(lake_folder, "abacus"), "as_of")


def test_without_pyspark(lake_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Spark is asked for where it is not installed: what to install, exit 2."""
    monkeypatch.setitem(sys.modules, "pyspark.errors", None)
    with pytest.raises(EngineError, match="not installed") as told:
        ask_fleet(Fleet(lake_folder, "spark"), "as_of")
    assert 'pip install "eol-pareto[spark]"' in str(told.value)
    assert told.value.exit_code == 2


def test_read_again_while_a_plant_publishes(
    lake_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rows read while a plant published are thrown away and read again, so often and no more."""
    answers = iter([False, True])
    monkeypatch.setattr(Lake, "unchanged", lambda self: next(answers))
    assert ask_fleet(lake_folder, "as_of").height == 3
    monkeypatch.setattr(Lake, "unchanged", lambda self: False)
    with pytest.raises(StoreError, match=f"each of {TRIES} tries"):
        ask_fleet(lake_folder, "as_of")


def test_file_is_replaced_whole(lake_folder: Path, tmp_path: Path) -> None:
    """Rows are written beside the file and take its place; nothing else is left."""
    path = tmp_path / "as_of.parquet"
    path.write_text("old")
    assert write_fleet(Fleet(lake_folder), "as_of", path) == path
    assert pl.read_parquet(path).height == 3
    assert [file.name for file in tmp_path.iterdir()] == ["as_of.parquet"]


def test_file_that_cannot_be_written(lake_folder: Path, tmp_path: Path) -> None:
    """A folder that is not there is told."""
    with pytest.raises(StoreError, match="there is no such folder"):
        write_fleet(Fleet(lake_folder), "as_of", tmp_path / "none" / "as_of.parquet")
