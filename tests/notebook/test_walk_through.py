"""The walk-through runs from its first cell to its last on the demo plant."""

from __future__ import annotations

import runpy
import sys
from pathlib import Path

import pytest

from eol.demo.build import DemoResult

SCRIPT = Path(__file__).with_name("walk_through.py")


@pytest.mark.slow
def test_it_runs(
    demo_plant: DemoResult, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Every cell runs, and what it says of the plant is so."""
    monkeypatch.setattr(sys, "argv", [str(SCRIPT), str(demo_plant.folder.root)])
    runpy.run_path(str(SCRIPT), run_name="__main__")
    assert "R07" in capsys.readouterr().out


def test_it_has_cells() -> None:
    """It opens as a notebook: a title and a cell a question."""
    text = SCRIPT.read_text(encoding="utf-8")
    assert text.startswith("# %% [markdown]\n")
    assert text.count("# %%") >= 8
