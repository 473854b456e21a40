"""Awkward cases through the tool: rows into files, files into a plant, figures out of its views.

Unless a case says otherwise: Tuesday 2026-09-08, each unit passed the electrical test before its
first row, and each station sends one more passed run of another unit in the next shift.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

import builders as b
import plants

from eol.load.ingest import IngestResult
from eol.plant.folder import PlantFolder

Row = dict[str, Any]
DAY = date(2026, 9, 8)
CATALOGUE = [b.code("LEAK", test="water"), b.code("BENCH_COMM", owner_area="equipment")]


@dataclass
class Case:
    """A plant to which files are sent, one ingest after another."""

    folder: PlantFolder
    known: set[str] = field(default_factory=set)
    sent: int = 0

    def given(self, *runs: list[Row], **feeds: list[Row]) -> IngestResult:
        """Load water runs and rows of other feeds; units that are new get their electrical pass."""
        rows = [row for run in runs for row in run]
        units = feeds.pop("units", [])
        of_units = [row for name in ("events", "repairs") for row in feeds.get(name, [])]
        fresh = {row["vin"] for row in [*rows, *units, *of_units]} - self.known
        files = {"water": rows, "units": units or [b.unit(vin) for vin in sorted(fresh)]}
        files["electrical"] = [
            *feeds.pop("electrical", []),
            *(row for vin in sorted(fresh) for row in b.run(vin, "05:00", test="electrical")),
        ]
        if not self.known:
            files["defect_codes"] = [*CATALOGUE, *feeds.pop("defect_codes", [])]
            files["units"] = [*files["units"], b.unit("LATER")]
            files["water"] = [*rows, *b.run("LATER", "16:00")]
            files["electrical"] += b.run("LATER", "15:00", test="electrical")
        self.known |= fresh | {"LATER"}
        return self.load(**files, **feeds)

    def load(self, **feeds: list[Row]) -> IngestResult:
        """Load rows as they are, a file a feed, each made an hour after the last."""
        self.sent += 1
        made_at = b.MADE_AT + timedelta(hours=self.sent)
        files = [b.file(feed, rows, made_at=made_at) for feed, rows in feeds.items() if rows]
        return plants.load(self.folder, *files)

    def rows(self, name: str, **equals: object) -> list[Row]:
        """The rows of a table or view, without the unit that only keeps the stations talking."""
        return [r for r in plants.rows(self.folder, name, **equals) if r.get("vin") != "LATER"]

    def told(self, names: str, *, view: str = "ftt_by_shift", test: str = "water") -> list[Any]:
        """Some figures of the early shift of that Tuesday, of FTT and DPHU unless another view is named."""
        of_shift = {"production_date": DAY, "shift": "E", "test": test}
        found: Row = {}
        for name in {view, "dphu_by_shift"}:
            for row in plants.rows(self.folder, name, **of_shift):
                found |= row
        return [found[name] for name in names.split()]

    def status(self, vin: str, test: str = "water") -> str:
        """What a unit stands at in a test."""
        [row] = self.rows("unit_status", vin=vin, test=test)
        return str(row["status"])
