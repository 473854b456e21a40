"""`eol init --from FILE`: a mapping proposed, never one imposed."""

from __future__ import annotations

from pathlib import Path

import pytest
from called import Eol
from foreign_files import FILES, foreign

from eol.plant.settings import read_settings


@pytest.mark.parametrize("name", FILES)
def test_new_plant_understands_the_file(eol: Eol, tmp_path: Path, name: str) -> None:
    """A new plant.toml holds the proposal, and ingest --explain reads the file by it."""
    path = foreign(tmp_path, name)
    assert eol("init", tmp_path / "p", "--from", path).code == 0
    assert read_settings(tmp_path / "p" / "plant.toml").feeds
    answer = eol("--plant", tmp_path / "p", "ingest", "--explain", path)
    assert answer.code == 0
    refused = [line for line in answer.out.splitlines() if "would be refused" in line]
    assert all("waits for the unit key" in line for line in refused)


def test_plant_toml_that_is_there_stays(eol: Eol, tmp_path: Path) -> None:
    """In a plant's folder the proposal is printed and nothing is changed."""
    eol("init", tmp_path / "p", "--name", "Quillbrook")
    before = (tmp_path / "p" / "plant.toml").read_bytes()
    answer = eol("init", tmp_path / "p", "--from", foreign(tmp_path, "WT_20260908_0900.csv"))
    assert answer.code == 0
    assert "[feed.water] # a guess: mend by hand" in answer.out
    assert "Columns without a place: Farbe" in answer.err
    assert (tmp_path / "p" / "plant.toml").read_bytes() == before


def test_file_that_cannot_be_read_makes_no_plant(eol: Eol, tmp_path: Path) -> None:
    """Without the file nothing is begun."""
    answer = eol("init", tmp_path / "p", "--from", tmp_path / "none.csv")
    assert answer.code == 3
    assert "none.csv" in answer.err
    assert not (tmp_path / "p").exists()


def test_as_json(eol: Eol, tmp_path: Path) -> None:
    """The proposal is one value of the answer."""
    answer = eol("init", tmp_path / "p", "--json", "--from", foreign(tmp_path, "results.tsv"))
    assert answer.json["proposal"]["feed"] == "squeak_rattle"
    assert answer.json["proposal"]["unplaced"] == ["Tyre"]
