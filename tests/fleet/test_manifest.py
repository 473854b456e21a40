"""Manifests and commits are JSON and come back as they were."""

from __future__ import annotations

import pytest

from eol.fleet.manifest import Commit, Manifest, Part, commit_from, manifest_from, to_json

PARTS = (Part("run", "2026-03", 7, "12"), Part("answer", "", 0, ""), Part("zone", "", 0, "0"))
MANIFEST = Manifest(
    "P1", "Quillbrook", "ab", 1, "0.1.0", "duckdb 2", "2026-03-01T00:00:00Z", 3, PARTS
)


def test_manifest_comes_back() -> None:
    """What is written is read."""
    assert manifest_from(to_json(MANIFEST)) == MANIFEST


def test_commit_comes_back() -> None:
    """A commit keeps its order of moves."""
    commit = Commit(MANIFEST, (("a", "b"), ("c", "d")), ("e",))
    assert commit_from(to_json(commit)) == commit


def test_monthly_table_without_rows_has_no_file() -> None:
    """It is told as published; a table without months has its file also where it is empty."""
    assert MANIFEST.tables == {"run", "answer", "zone"}
    assert [part.table for part in MANIFEST.written()] == ["run", "zone"]


@pytest.mark.parametrize("text", ["{}", '{"parts": [{"table": "run"}]}', '{"parts": [], "x": 1}'])
def test_what_is_no_manifest_is_told(text: str) -> None:
    """A file that lacks a key, or has one too many, is no manifest."""
    with pytest.raises(ValueError, match="no manifest of a lake"):
        manifest_from(text)
