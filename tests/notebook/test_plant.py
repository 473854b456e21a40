"""An open plant: SQL, answers and questions, each from the newest copy."""

from __future__ import annotations

from pathlib import Path

import builders as b
import plants
import pyarrow as pa
import pytest

import eol
from eol.errors import PlantFileError, UsageError
from eol.plant.folder import PlantFolder


@pytest.fixture(scope="module")
def plant(small_plant: PlantFolder) -> eol.OpenPlant:
    """A small plant, open."""
    return eol.open_plant(small_plant.root)


def test_sql(plant: eol.OpenPlant) -> None:
    """A frame with the rows; values by name."""
    frame = plant.sql("SELECT test, tested FROM ftt_by_shift WHERE test = $test", test="water")
    assert frame.rows() == [("water", 3)]


def test_arrow(plant: eol.OpenPlant) -> None:
    """The same as Arrow."""
    table = plant.arrow("SELECT vin, started_at FROM run")
    assert isinstance(table, pa.Table)
    assert table.schema.field("started_at").type == pa.timestamp("us", tz="UTC")


def test_sql_reads_alone(plant: eol.OpenPlant) -> None:
    """A notebook can write as little as the command."""
    with pytest.raises(UsageError, match="can only read"):
        plant.sql("DROP TABLE run")


def test_attached_data(small_plant: PlantFolder, tmp_path: Path) -> None:
    """Other data stand beside the copy for as long as the plant is open."""
    (tmp_path / "claims.csv").write_text("vin,n\nx,3\n")
    plant = eol.open_plant(small_plant.root, attached={"claims": str(tmp_path / "claims.csv")})
    assert plant.sql("SELECT n FROM claims").item() == 3


def test_answers(plant: eol.OpenPlant) -> None:
    """What the page, the status and the trail of a unit say, as values."""
    shift = plant.shift("2026-09-08/E")
    assert shift.tested == 6
    assert plant.unit("U2".rjust(17, "0")).unit["build_seq"] == 1
    assert plant.status("2026-09-08/E").counts["runs"] == 8
    assert plant.ask("throughput", test="water")["runs"].to_list() == [5]


def test_last_shift_where_none_is_named(plant: eol.OpenPlant, blank_plant: PlantFolder) -> None:
    """Without a name it is the last shift that ended; in an empty plant none has."""
    assert plant.shift().header.shift == "N"
    with pytest.raises(UsageError, match="no shift has ended yet"):
        eol.open_plant(blank_plant.root).shift()


def test_newest_copy_is_read(folder: PlantFolder) -> None:
    """An open plant sees what was loaded since."""
    plant = eol.open_plant(folder.root)
    assert plant.table("run").height == 0
    plants.load(folder, b.file("water", b.run("U1")))
    assert plant.table("run").height == plant.sql("FROM run").height == 1


def test_no_plant(tmp_path: Path) -> None:
    """A folder without a plant is told at once."""
    with pytest.raises(PlantFileError, match=r"there is no plant\.toml here"):
        eol.open_plant(tmp_path)
