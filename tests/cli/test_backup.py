"""`eol backup`: the copy's path is the data."""

from __future__ import annotations

from pathlib import Path

from called import Eol

from eol.plant.folder import PlantFolder


def test_words(eol: Eol, small_plant: PlantFolder, tmp_path: Path) -> None:
    """The folder of the copy on stdout; its size, fingerprint and rows are said."""
    answer = eol("--plant", small_plant.root, "backup", tmp_path)
    assert answer.code == 0
    assert (Path(answer.out.strip()) / "plant.duckdb").is_file()
    assert "8 runs of 4 units" in answer.err


def test_json(eol: Eol, small_plant: PlantFolder, tmp_path: Path) -> None:
    """As JSON: place, bytes, sha256 and rows by table."""
    told = eol("--plant", small_plant.root, "backup", tmp_path, "--json").json
    assert told["rows"]["run"] == 8
    assert len(told["sha256"]) == 64


def test_place_that_cannot_be_written(eol: Eol, small_plant: PlantFolder, tmp_path: Path) -> None:
    """A target that cannot be made: exit 3 and what to do."""
    (tmp_path / "kept").write_text("a file", encoding="utf-8")
    answer = eol("--plant", small_plant.root, "backup", tmp_path / "kept" / "more")
    assert answer.code == 3
    assert "Name a folder" in answer.err
