"""`eol fleet`: views, what rises, the page and files over many plants."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import polars as pl
import pytest

from eol.cli import run
from eol.fleet.publish import publish_lake
from eol.plant.folder import PlantFolder

Captured = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def lake(small_plant: PlantFolder, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lake of one plant."""
    place = tmp_path_factory.mktemp("fleet") / "lake"
    publish_lake(small_plant, place, plant="P1")
    return place


def test_view(lake: Path, capsys: Captured) -> None:
    """Rows as JSON, CSV and a table; the plant is the first column."""
    assert run(["fleet", "ftt_by_shift", "--lake", str(lake), "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert next(iter(rows[0])) == "plant"
    assert run(["fleet", "ftt_by_shift", "--lake", str(lake), "--csv"]) == 0
    assert capsys.readouterr().out.startswith("plant,production_date,shift,")


def test_file(
    lake: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """Parquet is written where asked for, and named."""
    monkeypatch.chdir(tmp_path)
    assert run(["fleet", "tests_of_plants", "--lake", str(lake), "--output", "tests.parquet"]) == 0
    assert capsys.readouterr().out == "tests.parquet\n"
    assert pl.read_parquet("tests.parquet").height > 0


@pytest.mark.slow
def test_rising_and_page(
    lake: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """What rises in words and as JSON; the page as a file."""
    monkeypatch.chdir(tmp_path)
    assert run(["fleet", "rising", "--lake", str(lake)]) == 0
    assert "Benjamini-Hochberg" in capsys.readouterr().err
    assert run(["fleet", "rising", "--lake", str(lake), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["codes"] == []
    assert run(["fleet", "page", "--lake", str(lake)]) == 0
    assert Path("fleet.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_lot(lake: Path, capsys: Captured) -> None:
    """A list of units says what it is not; without part and lot it asks for them."""
    named = ["--part", "seal", "--lot", "L1"]
    assert run(["fleet", "units_of_lot", "--lake", str(lake), *named]) == 0
    assert "not thereby cleared" in capsys.readouterr().err
    assert run(["fleet", "units_of_lot", "--lake", str(lake)]) == 2
    assert "asks for lot, part" in capsys.readouterr().err


def test_without_pyspark(lake: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> None:
    """Spark without pyspark: what to install, exit 2."""
    monkeypatch.setitem(sys.modules, "pyspark.errors", None)
    assert run(["fleet", "as_of", "--lake", str(lake), "--engine", "spark"]) == 2
    assert 'pip install "eol-pareto[spark]"' in capsys.readouterr().err


def test_empty_lake(tmp_path: Path, capsys: Captured) -> None:
    """A folder that is no lake: what to do, exit 2."""
    assert run(["fleet", "as_of", "--lake", str(tmp_path)]) == 2
    assert "eol publish --lake" in capsys.readouterr().err
