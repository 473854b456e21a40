"""`eol status`: headline, feeds, findings, exit code."""

from __future__ import annotations

import builders as b
import plants
from called import Eol

from eol.plant.folder import PlantFolder


def test_words(eol: Eol, small_plant: PlantFolder) -> None:
    """The headline and what needs a look are said, the feeds are a table."""
    answer = eol("--plant", small_plant.root, "status")
    assert answer.code == 0
    assert answer.err.startswith(
        "Quillbrook: data received up to 2026-09-08 10:00 UTC; 4 units, 8 runs"
    )
    assert [line.split()[:3] for line in answer.out.splitlines()[2:]][-1] == ["water", "1", "6"]


def test_json(eol: Eol, small_plant: PlantFolder) -> None:
    """As JSON: the counts by name."""
    told = eol("--plant", small_plant.root, "status", "--json").json
    assert (told["plant"], told["counts"]["runs"], told["needs_a_look"]) == ("Quillbrook", 8, False)


def test_exit_code_says_look(eol: Eol, folder: PlantFolder) -> None:
    """A unit shipped without proof: exit 1 and the words."""
    sent = b.file("events", [b.event("U1", "ship", "12:00")])
    plants.load(folder, b.file("units", [b.unit("U1")]), sent)
    answer = eol("--plant", folder.root, "status")
    assert answer.code == 1
    assert "without proof" in answer.err


def test_before_the_first_load(eol: Eol, folder: PlantFolder) -> None:
    """Without a copy: exit 3 and what to run first."""
    folder.read_copy.unlink()
    answer = eol("--plant", folder.root, "status")
    assert answer.code == 3
    assert "Run eol ingest first." in answer.err
