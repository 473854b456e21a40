"""The progress bar: on a terminal alone."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from eol.cli.progress import shown_progress


def test_nobody_watches(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a pipe there is none."""
    monkeypatch.setattr(sys.stderr, "isatty", lambda: False)
    with shown_progress() as progress:
        assert progress is None


def test_on_a_terminal(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """On a terminal each file is told as it is read, and stdout stays for data."""
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    with shown_progress() as progress:
        assert progress is not None
        progress(Path("water_1.csv"), 1, 2)
    assert capsys.readouterr().out == ""
