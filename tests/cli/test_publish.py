"""`eol publish --lake`: what it prints."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from eol.cli import run
from eol.plant.folder import PlantFolder


def test_publish_and_again(
    small_plant: PlantFolder, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The lake is named on stdout, what was written on stderr; again writes nothing."""
    command = ["--plant", str(small_plant.root), "publish", "--lake", str(tmp_path / "lake")]
    assert run(command) == 0
    printed = capsys.readouterr()
    assert printed.out == f"{tmp_path / 'lake'}\n"
    assert printed.err.startswith("Quillbrook: ")
    assert run([*command, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["written"] == []
