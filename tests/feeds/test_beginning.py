"""The first plant.toml of a plant that has only a file."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from foreign_files import FILES, foreign

from eol.feeds.beginning import propose_beginning


@pytest.mark.parametrize(
    "name", [name for name in FILES if name not in ("skids.csv", "etest-2026-09-13.csv")]
)
def test_record_begins_with_the_file(tmp_path: Path, name: str) -> None:
    """No row of the file lies before the record, one named by a unit key neither."""
    begun = propose_beginning(foreign(tmp_path, name), name="Q", timezone="Europe/Berlin")
    assert begun.starts_on == date(2026, 9, 8)


def test_day_that_was_asked_for_stays(tmp_path: Path) -> None:
    """Who names a day gets it."""
    path = foreign(tmp_path, "results.tsv")
    day = date(2026, 2, 3)
    assert propose_beginning(path, name="Q", timezone="UTC", starts_on=day).starts_on == day


def test_file_without_a_time(tmp_path: Path) -> None:
    """A file that tells no time leaves the record to begin today."""
    begun = propose_beginning(foreign(tmp_path, "skids.csv"), name="Q", timezone="UTC")
    assert begun.starts_on == date.today()
