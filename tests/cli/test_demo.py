"""`eol demo`: what it says; the plant itself is tested in tests/demo."""

from __future__ import annotations

from pathlib import Path

import pytest
from called import Eol

from eol.demo.build import DemoResult


@pytest.fixture
def built(demo_plant: DemoResult, monkeypatch: pytest.MonkeyPatch) -> DemoResult:
    """The demo, as if the command had just built it."""
    monkeypatch.setattr("eol.demo.build.build_demo", lambda folder, progress: demo_plant)
    return demo_plant


def test_words(eol: Eol, built: DemoResult) -> None:
    """The page's path is the data; what to look at and what to ask next is said."""
    answer = eol("demo", built.folder.root)
    assert (answer.code, answer.out) == (0, f"{built.page}\n")
    for words in (*built.look_at, built.shift, f"eol --plant '{built.folder.root}' sql"):
        assert words in answer.err


def test_json(eol: Eol, built: DemoResult) -> None:
    """As JSON: plant, page, shift and what to look at."""
    told = eol("demo", built.folder.root, "--json").json
    assert Path(told["page"]) == built.page
    assert told["look_at"] == list(built.look_at)


def test_folder_of_another_plant(eol: Eol, tmp_path: Path) -> None:
    """A folder that holds another plant is left alone: exit 2."""
    eol("init", tmp_path, "--name", "Other")
    answer = eol("demo", tmp_path)
    assert answer.code == 2
    assert "another plant" in answer.err
