"""When a file was made, by its name or by its last change."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from feed_rows import utc

from eol.feeds.made_at import made_at, name_notes, named_time


@pytest.mark.parametrize(
    ("name", "pattern", "made"),
    [
        ("WT_20260908_0600.csv", "WT_{made_at:%Y%m%d_%H%M}.csv", "2026-09-08T04:00:00"),
        ("WT_20260908_0600.csv.gz", "WT_{made_at:%Y%m%d_%H%M}.csv", "2026-09-08T04:00:00"),
        ("line3_2026-09-08.csv", "*_{made_at:%Y-%m-%d}.csv", "2026-09-07T22:00:00"),
        ("a1 080926.txt", "a? {made_at:%d%m%y}*", "2026-09-07T22:00:00"),
        ("x20260908T060000Z.csv", "x{made_at:%Y%m%dT%H%M%S%z}.csv", "2026-09-08T06:00:00"),
        ("8Sep2026.csv", "{made_at:%d%b%Y}.csv", None),
    ],
)
def test_time_in_a_name(name: str, pattern: str, made: str | None) -> None:
    """The time in the name is local in the feed's zone; * and ? stand for other signs."""
    expected = utc(made) if made else None
    assert named_time(name, pattern=pattern, zone="Europe/Berlin") == expected


def test_name_that_does_not_fit() -> None:
    """A name without the time, or with one that never was, tells nothing."""
    pattern = "WT_{made_at:%Y%m%d}.csv"
    assert named_time("WT_latest.csv", pattern=pattern, zone="UTC") is None
    assert named_time("WT_20261399.csv", pattern=pattern, zone="UTC") is None
    assert named_time("WT_20260908.csv", pattern="WT_*.csv", zone="UTC") is None


def test_last_change_where_the_name_tells_nothing(tmp_path: Path) -> None:
    """Without a time in its name a file was made when it was last changed."""
    path = tmp_path / "WT_latest.csv"
    path.write_text("x")
    os.utime(path, (1_788_847_200, 1_788_847_200))
    at = utc("2026-09-08T06:00:00")
    assert made_at(path, pattern="WT_{made_at:%Y%m%d}.csv", zone="UTC") == at
    assert made_at(path, pattern=None, zone="UTC") == at


def test_name_without_its_time_is_told() -> None:
    """A file that was renamed is still taken, but somebody is told."""
    pattern = "WT_{made_at:%Y%m%d}.csv"
    told = name_notes(Path("WT_latest.csv"), pattern=pattern, zone="UTC")
    assert told == (
        f"the name does not fit made_at ({pattern}); the file's last change counts instead",
    )
    assert name_notes(Path("WT_20260908.csv"), pattern=pattern, zone="UTC") == ()
    assert name_notes(Path("any.csv"), pattern=None, zone="UTC") == ()
