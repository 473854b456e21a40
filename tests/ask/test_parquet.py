"""The copy as Parquet: every table and view, with its words, readable by whatever reads Parquet."""

from __future__ import annotations

from pathlib import Path

import pandas as pd
import polars as pl
import pyarrow.parquet as pq
import pytest
from polars.testing import assert_frame_equal

from eol.ask.dictionary import dictionary
from eol.ask.parquet import LEFT_OUT, PublishedFiles, publish_parquet
from eol.ask.sql import ask_copy
from eol.errors import StoreError
from eol.plant.folder import PlantFolder


@pytest.fixture(scope="module")
def files(small_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory) -> PublishedFiles:
    """A small plant as Parquet."""
    return publish_parquet(small_plant, tmp_path_factory.mktemp("parquet") / "new")


def test_every_table_and_view(small_plant: PlantFolder, files: PublishedFiles) -> None:
    """One file each, with all rows; nothing else is left in the folder."""
    names = {r.name for r in dictionary(small_plant).relations if "." not in r.name} - LEFT_OUT
    assert set(files.rows) == names
    assert {path.name for path in files.folder.iterdir()} == {
        f"{n}.parquet" for n in {*names, "dictionary"}
    }
    assert files.rows["run"] == 8


@pytest.mark.parametrize("name", ["run", "ftt_by_shift", "pareto_by_shift", "unit"])
def test_rows_are_the_copys(small_plant: PlantFolder, files: PublishedFiles, name: str) -> None:
    """A frame of polars has the rows of the copy, times in UTC."""
    frame = pl.read_parquet(files.folder / f"{name}.parquet")
    assert_frame_equal(frame, ask_copy(small_plant, f"FROM {name}"), check_row_order=False)


def test_pandas_reads_times(files: PublishedFiles) -> None:
    """A frame of pandas has times with their zone."""
    frame = pd.read_parquet(files.folder / "run.parquet")
    assert str(frame["started_at"].dt.tz) == "UTC"
    assert len(frame) == 8


def test_types_that_every_reader_has(files: PublishedFiles) -> None:
    """Only whole numbers, numbers, texts, dates, yes and no, and times in UTC: R's readers know all of them."""
    known = {"int64", "int32", "double", "string", "date32[day]", "bool", "timestamp[us, tz=UTC]"}
    for path in files.folder.glob("*.parquet"):
        if path.stem != "dictionary":
            assert {str(kind) for kind in pq.read_schema(path).types} <= known, path.name


def test_words_go_along(files: PublishedFiles) -> None:
    """Each column carries what it holds, and dictionary.parquet tells all of it."""
    schema = pq.read_schema(files.folder / "open_unit.parquet")
    assert schema.field("hours").metadata[b"comment"].startswith(b"hours from since")
    words = pl.read_parquet(files.folder / "dictionary.parquet")
    assert (
        words.filter((pl.col("name") == "open_unit") & (pl.col("column") == "hours"))["unit"].item()
        == "h"
    )


def test_folder_that_cannot_be_written(small_plant: PlantFolder, tmp_path: Path) -> None:
    """A place that cannot be written to is told."""
    (tmp_path / "in_the_way").write_text("")
    with pytest.raises(StoreError, match="the files cannot be written"):
        publish_parquet(small_plant, tmp_path / "in_the_way" / "below")
