"""What goes into the second opinion and what comes out of it."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

Row = dict[str, Any]


@dataclass(frozen=True)
class File:
    """A file as it was sent: its feed, when it was made, its rows in order."""

    name: str
    feed: str
    made_at: datetime
    rows: list[Row]
    sha256: str | None = None

    @property
    def fingerprint(self) -> str:
        """The sha256 of the written file, else of the rows."""
        return self.sha256 or hashlib.sha256(repr(self.rows).encode()).hexdigest()


@dataclass(frozen=True)
class Plant:
    """A plant: its plant.toml as a dict, and every file that came."""

    settings: dict[str, Any]
    files: list[File]


@dataclass(frozen=True)
class Opinion:
    """What the rules make of a plant: stamped rows by table, figures by view."""

    tables: dict[str, list[Row]]
    views: dict[str, list[Row]]


@dataclass
class Book:
    """The rows that won, on their way to be stamped."""

    settings: dict[str, Any]
    windows: list[Row]
    runs: list[Row]
    units: dict[str, Row]
    attributes: list[Row]
    repairs: list[Row]
    events: list[Row]
    codes: list[Row]
    zones: list[Row]
    units_made_at: list[datetime]
    files: list[Row]
    status: dict[tuple[str, str], Row] = field(default_factory=dict)
    as_of: datetime | None = None

    def test(self, name: str) -> dict[str, Any]:
        """The settings of one test."""
        found: dict[str, Any] = self.settings["test"][name]
        return found
