"""A suspect list from question to files."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from pathlib import Path

import plants
import pytest

from eol.facts.contain_question import ContainQuestion
from eol.plant.folder import PlantFolder
from eol.report.contain import contain

AT = datetime(2026, 9, 20, 6, tzinfo=UTC)
LEAK = ContainQuestion("LEAK", vins=(plants.vin("U2"),))


@pytest.fixture
def plant(small_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The small plant, to write to."""
    shutil.copytree(small_plant.root, tmp_path / "plant")
    return PlantFolder(tmp_path / "plant")


def test_kept_and_written(plant: PlantFolder) -> None:
    """The list is published with who made it as a pseudonym, and its three files lie in reports."""
    made = contain(plant, LEAK, made_by="Miller", now=AT)
    (kept,) = plants.rows(plant, "containment")
    assert kept["made_by"].startswith("p-")
    assert "Miller" not in str(kept)
    assert (kept["version"], kept["made_at"]) == (1, AT)
    assert {row["evidence"] for row in plants.rows(plant, "containment_unit")} == {
        unit.evidence for unit in made.found.units
    }
    assert sorted(path.suffix for path in plant.reports.glob("contain_*")) == [
        ".csv",
        ".html",
        ".xlsx",
    ]


def test_asked_again(plant: PlantFolder) -> None:
    """The same question on the same data is the same version, made when it was first made."""
    first, again = contain(plant, LEAK, now=AT), contain(plant, LEAK)
    assert (again.kept.version, again.kept.fresh) == (1, False)
    assert again.kept.made_at == AT
    assert again.files == first.files
