"""When an ingest needs somebody's look."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from eol.load.outcome import FileOutcome, IngestResult


@pytest.mark.parametrize(
    ("state", "counts", "look"),
    [
        ("loaded", {}, False),
        ("known", {"repeated": 3}, False),
        ("retried", {"accepted": 3}, False),
        ("loaded", {"waiting": 3}, False),
        ("loaded", {"rejected": 1}, True),
        ("refused", {}, True),
        ("held", {}, True),
        ("offline", {}, True),
    ],
)
def test_what_needs_a_look(state: str, counts: dict[str, Any], look: bool) -> None:
    """Refused rows and files do; rows that wait or came before do not."""
    assert IngestResult((FileOutcome(Path("water.csv"), state, **counts),)).needs_a_look is look


def test_doubles_need_a_look() -> None:
    """A re-export moved by an hour is somebody's to stop (rule 2)."""
    assert IngestResult(doubles=1).needs_a_look
    assert not IngestResult().needs_a_look
