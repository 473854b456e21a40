"""`eol action`: the register, and entries into it."""

from __future__ import annotations

import shutil
from pathlib import Path

from called import Eol

from eol.plant.folder import PlantFolder


def test_empty_register_says_how_to_enter(eol: Eol, small_plant: PlantFolder) -> None:
    """Without an action nothing is printed, and what to do is said."""
    answer = eol("--plant", small_plant.root, "action")
    assert (answer.code, answer.out) == (0, "")
    assert "enter one with eol action open" in answer.err
    assert eol("--plant", small_plant.root, "action", "--json").json == []


def test_unknown_code_and_wrong_day(eol: Eol, small_plant: PlantFolder) -> None:
    """A code that is not known and a day that is none: exit 2, the nearest named."""
    answer = eol("--plant", small_plant.root, "action", "open", "LEEK")
    assert (answer.code, answer.out) == (2, "")
    assert "The nearest is LEAK." in answer.err
    assert eol("--plant", small_plant.root, "action", "close", "X", "--on", "today").code == 2


def test_open_and_tell(eol: Eol, small_plant: PlantFolder, tmp_path: Path) -> None:
    """An action is opened by its options, and stands in the register as one row and as a record."""
    plant = ("--plant", shutil.copytree(small_plant.root, tmp_path / "plant"), "action")
    line = ("open", "LEAK", "--id", "CM-1", "--text", "New seal", "--opened", "2026-09-01")
    assert eol(*plant, *line, "--cut-in", "2026-09-02 06:00", "--hoped", "0.3").out == "CM-1\n"
    (told,) = eol(*plant, "--json").json
    assert (told["verdict"], told["expected_ratio"]) == ("no baseline", 0.3)
    assert told["cut_in_at"] == "2026-09-02T06:00:00"
    assert eol(*plant, "close", "CM-1", "--on", "2026-09-30").code == 0
    table = eol(*plant).out
    assert "New seal" in table
    assert "no baseline; closed 2026-09-30" in table
