"""What is asked is a view of one plant or a question over many."""

from __future__ import annotations

from eol.fleet.asked import Asked
from eol.sqlfiles import SqlFile


def test_view_or_question() -> None:
    """The folder of the file tells which."""
    assert Asked(SqlFile("views", "a", "")).is_view
    assert not Asked(SqlFile("fleet", "a", "")).is_view
