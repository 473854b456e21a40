"""Other data beside the copy: read only, under a name of its own."""

from __future__ import annotations

from pathlib import Path

import duckdb
import polars as pl
import pytest
from plants import vin

from eol.ask.attach import parse_attached
from eol.ask.sql import ask_copy
from eol.errors import UsageError
from eol.plant.folder import PlantFolder

GAPS = pl.DataFrame({"vin": [vin("U1"), vin("U2")], "gap_mm": [3.1, 4.4]})


@pytest.fixture
def body(tmp_path: Path) -> Path:
    """A folder of body data: a Parquet file, a CSV file and a folder of Parquet files."""
    folder = tmp_path / "body's data"
    (folder / "torque").mkdir(parents=True)
    GAPS.write_parquet(folder / "gaps.parquet")
    GAPS.write_csv(folder / "beads.csv")
    for number in range(2):
        GAPS.write_parquet(folder / "torque" / f"{number}.parquet")
    (folder / "notes.md").write_text("not a table")
    return folder


@pytest.mark.parametrize(("table", "rows"), [("gaps", 2), ("beads", 2), ("torque", 4)])
def test_folder(small_plant: PlantFolder, body: Path, table: str, rows: int) -> None:
    """Each file of a folder is a table, and so is each folder of files."""
    statement = f"SELECT u.model, b.gap_mm FROM unit AS u JOIN body.{table} AS b USING (vin)"
    assert ask_copy(small_plant, statement, attached={"body": body}).height == rows


def test_file(small_plant: PlantFolder, body: Path) -> None:
    """A single file is a table of the name that it is given."""
    attached = {"gaps": body / "gaps.parquet", "beads": body / "beads.csv"}
    frame = ask_copy(
        small_plant,
        "SELECT max(gap_mm) AS m FROM gaps JOIN beads USING (vin, gap_mm)",
        attached=attached,
    )
    assert frame["m"].to_list() == [4.4]


def test_database(small_plant: PlantFolder, tmp_path: Path) -> None:
    """A DuckDB file is a database of its own, read only."""
    path = tmp_path / "lab's.duckdb"
    with duckdb.connect(str(path)) as other:
        other.execute("CREATE TABLE peel AS SELECT 7 AS n")
    before = path.read_bytes()
    assert ask_copy(small_plant, "FROM lab.peel", attached={"lab": path}).rows() == [(7,)]
    with pytest.raises(UsageError, match="INSERT is refused"):
        ask_copy(small_plant, "INSERT INTO lab.peel VALUES (8)", attached={"lab": path})
    assert path.read_bytes() == before


def test_files_beside_stay_closed(small_plant: PlantFolder, body: Path) -> None:
    """What was attached opens nothing else, not even by its own path."""
    statement = f"FROM '{str(body / 'beads.csv').replace(chr(39), chr(39) * 2)}'"
    with pytest.raises(UsageError, match="the published copy alone"):
        ask_copy(small_plant, statement, attached={"body": body / "gaps.parquet"})


@pytest.mark.parametrize("name", ["run", "ftt_by_shift", "plant", "memory", "a b", "1a", "mine"])
def test_name_that_is_taken(small_plant: PlantFolder, body: Path, name: str) -> None:
    """A name that stands for something already, or is none, is refused."""
    with pytest.raises(UsageError, match=f"'{name}' cannot be the name"):
        ask_copy(small_plant, "SELECT 1", attached={name: body})


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("nowhere", "no such file"),
        (".", "no Parquet or CSV"),
        ("a.bin", "neither"),
        ("a.duckdb", "cannot be attached"),
    ],
)
def test_what_cannot_be_attached(
    small_plant: PlantFolder, tmp_path: Path, path: str, words: str
) -> None:
    """A path that is not there or holds no rows is told with the path."""
    for name in ("a.bin", "a.duckdb"):
        (tmp_path / name).write_text("nothing of the kind")
    with pytest.raises(UsageError, match=words):
        ask_copy(small_plant, "SELECT 1", attached={"x": tmp_path / path})


def test_texts() -> None:
    """NAME=PATH; a name comes once."""
    assert parse_attached(["a=b=c"]) == {"a": Path("b=c")}
    for texts in (["a"], ["=b"], ["a=b", "a=c"]):
        with pytest.raises(UsageError, match="is not NAME=PATH"):
            parse_attached(texts)
