"""Going on: rounds that begin at a steady pace, and a fault that ends no loop."""

from __future__ import annotations

from pathlib import Path

import pytest

from eol.plant.folder import PlantFolder
from eol.schedule.loop import run_every
from eol.schedule.run import Done, RunResult, Tell


def test_pace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Between rounds it rests what is left of the seconds, and ends after the last round."""
    calls: list[str] = []

    def run(folder: PlantFolder, *, tell: Tell) -> RunResult:
        calls.append("run")
        return RunResult(())

    monkeypatch.setattr("eol.schedule.loop.run_due", run)
    rests: list[float] = []
    run_every(PlantFolder(tmp_path), 60, tell=print, rest=rests.append, rounds=3)
    assert calls == ["run"] * 3
    assert len(rests) == 2
    assert all(59 < rest <= 60 for rest in rests)


def test_fault_is_told_and_ends_nothing(tmp_path: Path) -> None:
    """A plant.toml that is missing today may be there in the next round."""
    told: list[Done] = []
    run_every(PlantFolder(tmp_path), 1, tell=told.append, rest=lambda seconds: None, rounds=2)
    assert [(one.level, one.exit_code) for one in told] == [("failed", 2)] * 2
