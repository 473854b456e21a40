"""`eol init`: a plant folder that the next command can use."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from called import Eol

from eol.plant.settings import read_settings


def test_folder_with_blank_and_umlaut(eol: Eol, tmp_path: Path) -> None:
    """The folder's name is the plant's where none is given; the path alone is data."""
    root = tmp_path / "Werk Süd"
    answer = eol("init", root, "--timezone", "America/New_York", "--starts-on", "2026-02-03")
    assert (answer.code, answer.out) == (0, f"{root}\n")
    plant = read_settings(root / "plant.toml").plant
    assert (plant.name, plant.timezone, plant.starts_on) == (
        "Werk Süd",
        "America/New_York",
        date(2026, 2, 3),
    )


def test_next_command_works(eol: Eol, tmp_path: Path) -> None:
    """A new plant loads its empty inbox and tells that nothing has come yet."""
    eol("init", tmp_path / "p", "--name", "Quillbrook")
    assert eol("--plant", tmp_path / "p", "ingest").code == 0
    answer = eol("--plant", tmp_path / "p", "status")
    assert answer.code == 0
    assert "no data yet" in answer.out + answer.err


def test_json(eol: Eol, tmp_path: Path) -> None:
    """As JSON: the folder and its plant.toml."""
    answer = eol("init", tmp_path / "p", "--json")
    assert answer.json == {
        "folder": str(tmp_path / "p"),
        "plant_toml": str(tmp_path / "p" / "plant.toml"),
    }


def test_never_twice(eol: Eol, tmp_path: Path) -> None:
    """A plant.toml that is there stays, byte for byte."""
    eol("init", tmp_path, "--name", "Quillbrook")
    before = (tmp_path / "plant.toml").read_bytes()
    answer = eol("init", tmp_path, "--name", "Other")
    assert answer.code == 2
    assert "there is a plant.toml here already" in answer.err
    assert (tmp_path / "plant.toml").read_bytes() == before


def test_unknown_zone(eol: Eol, tmp_path: Path) -> None:
    """A time zone that is none is refused, and nothing is made."""
    answer = eol("init", tmp_path / "p", "--timezone", "Europe/Nowhere")
    assert answer.code == 2
    assert "Europe/Nowhere" in answer.err
    assert not (tmp_path / "p").exists()
