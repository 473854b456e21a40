"""What readers see of a lake, and what they are told where they cannot."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from eol.errors import EngineError, StoreError
from eol.fleet.lake import read_lake
from eol.fleet.place import Place, open_place
from eol.store.schema import SCHEMA_VERSION


@pytest.fixture
def place(lake_folder: Path, tmp_path: Path) -> Place:
    """The lake of three plants, to spoil."""
    return open_place(shutil.copytree(lake_folder, tmp_path / "lake"))


def change_manifest(place: Place, name: str, **values: object) -> None:
    """Write other values into a plant's manifest."""
    text = place.read_text(f"_manifest/{name}.json") or ""
    place.write_text(f"_manifest/{name}.json", json.dumps({**json.loads(text), **values}))


def test_plants_by_name(place: Place) -> None:
    """All plants there are, or those asked for."""
    assert read_lake(place).names == ("north", "south", "west")
    assert read_lake(place, ["west", "north"]).names == ("north", "west")


def test_empty_lake(tmp_path: Path) -> None:
    """A lake into which nobody published says what to do."""
    with pytest.raises(EngineError, match="no plant has published") as told:
        read_lake(open_place(tmp_path))
    assert "eol publish --lake" in str(told.value)


def test_unknown_plant(place: Place) -> None:
    """A plant that is not there is told with those that are."""
    with pytest.raises(EngineError, match="no plant east") as told:
        read_lake(place, ["east"])
    assert "north, south, west" in str(told.value)


@pytest.mark.parametrize(
    ("version", "hint"),
    [(SCHEMA_VERSION - 1, "Publish that plant again"), (SCHEMA_VERSION + 1, "Install the newer")],
)
def test_other_schema_version(place: Place, version: int, hint: str) -> None:
    """A plant of an older schema is to publish again; of a newer one the reader is to be renewed."""
    change_manifest(place, "south", schema_version=version)
    with pytest.raises(
        EngineError, match=f"plant south published tables of schema version {version}"
    ) as told:
        read_lake(place)
    assert hint in str(told.value)


def test_plant_lacks_a_table(place: Place) -> None:
    """A table that a plant did not publish is named with the plant, before anything is read."""
    text = json.loads(place.read_text("_manifest/west.json") or "")
    change_manifest(place, "west", parts=[p for p in text["parts"] if p["table"] != "zone"])
    with pytest.raises(EngineError, match="plant west lacks zone"):
        read_lake(place).require(["run", "zone"])
    read_lake(place).require(["run"])


def test_part_is_gone(place: Place) -> None:
    """A part that somebody removed is named."""
    (Path(place.root) / "zone/plant=west/part-0.parquet").unlink()
    with pytest.raises(EngineError, match=r"plant west lacks zone/plant=west/part-0\.parquet"):
        read_lake(place).require(["zone"])


def test_manifest_that_cannot_be_read(place: Place) -> None:
    """A torn manifest is told with what to do."""
    place.write_text("_manifest/west.json", '{"parts": [')
    with pytest.raises(StoreError, match="manifest of plant west cannot be read"):
        read_lake(place)


def test_publishing_is_noticed(place: Place) -> None:
    """A lake read before somebody published is known to be older."""
    lake = read_lake(place)
    assert lake.unchanged()
    change_manifest(place, "west", generation=2)
    assert not lake.unchanged()
