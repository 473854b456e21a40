"""`eol run`: lines as text or JSON, silence where nothing is due, the pid of a first scheduler."""

from __future__ import annotations

import json
import os
from datetime import UTC, datetime

import pytest
from called import Eol

from eol.plant.folder import PlantFolder
from eol.schedule.alone import alone
from eol.schedule.run import Done, RunResult, Tell

DONE = Done(
    datetime(2026, 9, 8, 12, 35, tzinfo=UTC), "mail", "look", "lead@q: refused: 550 früh", 0
)


@pytest.fixture
def one_done(monkeypatch: pytest.MonkeyPatch) -> None:
    """A call that does one thing."""

    def run(folder: PlantFolder, *, tell: Tell) -> RunResult:
        tell(DONE)
        return RunResult((DONE,))

    monkeypatch.setattr("eol.schedule.run.run_due", run)
    monkeypatch.setattr("eol.schedule.loop.run_due", run)


def test_text(eol: Eol, folder: PlantFolder, one_done: None) -> None:
    """One line a thing, on stderr; what needs a look is exit code 1."""
    answer = eol("--plant", folder.root, "run")
    assert (answer.code, answer.out) == (1, "")
    assert answer.err == "2026-09-08T12:35:00Z look mail lead@q: refused: 550 früh\n"


def test_json(eol: Eol, folder: PlantFolder, one_done: None) -> None:
    """Lines as JSON for a log, the whole as JSON on stdout."""
    answer = eol("--plant", folder.root, "run", "--log", "json", "--json")
    line = {"at": "2026-09-08T12:35:00+00:00", "level": "look", "step": "mail"}
    assert json.loads(answer.err) == line | {"text": "lead@q: refused: 550 früh"}
    assert answer.json["done"][0]["step"] == "mail"


def test_second_scheduler(eol: Eol, folder: PlantFolder, one_done: None) -> None:
    """While another one is at work: its pid, and exit code 0."""
    with alone(folder):
        answer = eol("--plant", folder.root, "run")
    assert (answer.code, answer.out) == (0, "")
    assert f"process {os.getpid()} does what is due" in answer.err


def test_every(
    eol: Eol, folder: PlantFolder, one_done: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It goes on until it is interrupted, which is no fault."""
    rests: list[float] = []

    def rest(seconds: float) -> None:
        rests.append(seconds)
        if len(rests) == 2:
            raise KeyboardInterrupt

    monkeypatch.setattr(
        "eol.schedule.loop.run_every.__kwdefaults__", {"rest": rest, "rounds": None}
    )
    answer = eol("--plant", folder.root, "run", "--every", "60")
    assert answer.code == 130
    assert answer.err.count("look mail") == 2
