"""`eol send`: the dry run's path on stdout, exit codes by what got through."""

from __future__ import annotations

import shutil
from pathlib import Path

import mail_plants
import pytest
from called import Eol
from mail_server import PASSWORD, USER, mail_server, read

from eol.plant.folder import PlantFolder


@pytest.fixture
def plant(small_plant: PlantFolder, tmp_path: Path) -> PlantFolder:
    """The small plant, to write to."""
    shutil.copytree(small_plant.root, tmp_path / "Werk Süd")
    return PlantFolder(tmp_path / "Werk Süd")


@pytest.fixture(autouse=True)
def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pages and pictures are drawn elsewhere."""
    mail_plants.draw_nothing(monkeypatch.setattr)


def test_dry_run(eol: Eol, plant: PlantFolder) -> None:
    """The mail is a file in reports; its path is all the data there is, and it goes nowhere."""
    answer = eol("--plant", plant.root, "send", "--shift", "2026-09-08/E", "--dry-run")
    assert answer.code == 0
    mail = Path(answer.out.strip())
    assert mail.parent == plant.reports
    assert "Tue 8 Sep E" in read(mail.read_bytes())["Subject"]


def test_no_mail_declared(eol: Eol, plant: PlantFolder) -> None:
    """Without [mail]: exit 2, and how to go on."""
    answer = eol("--plant", plant.root, "send", "--shift", "2026-09-08/E")
    assert (answer.code, answer.out) == (2, "")
    assert "[mail] has no host, no sender, no to" in answer.err


@pytest.mark.mail
def test_exit_codes(eol: Eol, plant: PlantFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    """Sent is 0; settings at fault 3; somebody refused 1; sent before is 0 and says so."""
    monkeypatch.setenv("EOL_MAIL_USER", USER)
    line = ("--plant", plant.root, "send", "--shift", "2026-09-08/E")
    with mail_server(plant.root) as server:
        mail_plants.declare(plant, mail=server.settings)
        monkeypatch.setenv("EOL_MAIL_PASSWORD", "wrong")
        assert eol(*line).code == 3
        monkeypatch.setenv("EOL_MAIL_PASSWORD", PASSWORD)
        server.answers["lead"] = "550 no such user"
        refused = eol(*line)
        assert (refused.code, refused.out.splitlines()) == (
            1,
            [
                "lead@quillbrook.example: refused: 550 no such user",
                "shift@quillbrook.example: sent",
            ],
        )
        again = eol(*line)
        assert again.code == 0
        assert "had left before" in again.err
