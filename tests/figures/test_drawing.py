"""Drawings of a process beside this one: the same, and made here where it is not there."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from eol.errors import ReportError
from eol.figures import drawing
from eol.figures.drawing import drawn, drawn_beside

SPEC = {
    "data": {"values": [{"a": 1.5, "b": "ä ☃ <x>"}]},
    "mark": "text",
    "encoding": {"x": {"field": "a", "type": "quantitative"}, "text": {"field": "b"}},
}
BROKEN = {"data": {"values": []}, "mark": {"type": "no mark"}}


def beside() -> subprocess.Popen[str]:
    """The process of the block."""
    process = drawing._BESIDE.get()
    assert process is not None
    return process


def test_drawn_beside_as_here() -> None:
    """The process draws what is drawn here, sign by sign, and ends with the block."""
    with drawn_beside():
        process = beside()
        there = drawn(SPEC, "words")
    assert "ä ☃ &lt;x&gt;" in there
    assert there == drawn(SPEC, "words")
    assert process.poll() is not None
    assert drawing._BESIDE.get() is None


def test_it_draws_there_and_not_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Within the block nothing is drawn by this process."""
    monkeypatch.setattr(drawing, "_drawn_here", lambda spec: pytest.fail("drawn here"))
    with drawn_beside():
        assert drawn(SPEC, "words").startswith("<svg")


@pytest.mark.parametrize("where", ["here", "beside"])
def test_what_cannot_be_drawn_is_told(where: str) -> None:
    """The figure is named, and the next one can be drawn, wherever it is drawn."""
    if where == "here":
        fails_and_goes_on()
        return
    with drawn_beside():
        fails_and_goes_on()
        assert beside().poll() is None


def fails_and_goes_on() -> None:
    """A broken figure, then a sound one."""
    with pytest.raises(ReportError, match="the figure cannot be drawn") as error:
        drawn(BROKEN, "broken")
    assert error.value.where == "figure broken"
    assert drawn(SPEC, "words").startswith("<svg")


def test_process_that_ended_is_not_missed() -> None:
    """Where it was killed, figures are drawn here."""
    with drawn_beside():
        beside().kill()
        beside().wait()
        assert drawn(SPEC, "words") == drawn(SPEC, "again")


def test_process_that_cannot_start_is_not_missed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a program to start, figures are drawn here."""
    monkeypatch.setattr(sys, "executable", "/nowhere/python")
    with drawn_beside():
        assert drawing._BESIDE.get() is None
        assert drawn(SPEC, "words").startswith("<svg")


def test_no_file_of_the_folder_is_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file json.py where a person stands is no part of the process."""
    (tmp_path / "json.py").write_text("raise SystemExit(1)")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(drawing, "_drawn_here", lambda spec: pytest.fail("drawn here"))
    with drawn_beside():
        assert drawn(SPEC, "words").startswith("<svg")


def test_it_ends_with_its_input() -> None:
    """A process whose parent has gone does not stay."""
    program = [sys.executable, "-P", "-m", drawing.__name__]
    lines = f"{json.dumps(SPEC)}\n"
    done = subprocess.run(program, input=lines, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0
    assert json.loads(done.stdout) == [drawn(SPEC, "words"), ""]
