"""Everything known of one unit, in order: the answer behind `eol unit`."""

from __future__ import annotations

from dataclasses import dataclass

import polars as pl

from eol.errors import UsageError
from eol.plant.folder import PlantFolder
from eol.store.connect import open_copy
from eol.store.database import Database


@dataclass(frozen=True, slots=True)
class UnitTrail:
    """What is known of a unit.

    Attributes:
        unit: its row of table `unit`.
        status: its rows of `unit_status`, one a test.
        rows: its rows of view `unit_timeline`, in order of time (UTC).
        handling: the catalogue's words of caution for what was found on it.
        nearest: where no schedule named it, at most three VINs like its own that one did (rule 17).
    """

    unit: dict[str, object]
    status: pl.DataFrame
    rows: pl.DataFrame
    handling: tuple[str, ...]
    nearest: tuple[str, ...]


def unit_trail(folder: PlantFolder, vin: str) -> UnitTrail:
    """Return everything known of a unit.

    Args:
        folder: the plant folder.
        vin: its VIN; upper and lower case are one.

    Raises:
        UsageError: the plant knows no such unit; the nearest VINs are named.
        StoreError: nothing has been published yet.
    """
    wanted = vin.strip().upper()
    with open_copy(folder) as copy:
        unit = copy.view("unit", vin=wanted)
        if unit.is_empty():
            near = _nearest(copy, wanted)
            hint = f"Nearest: {', '.join(near)}" if near else "Run eol ingest first."
            raise UsageError(f"no unit has the VIN {wanted}", hint=hint)
        told = unit.row(0, named=True)
        return UnitTrail(
            unit=told,
            status=copy.view("unit_status", vin=wanted).sort("test"),
            rows=copy.run("unit", "timeline", vin=wanted),
            handling=tuple(copy.run("unit", "handling", vin=wanted)["handling"]),
            nearest=() if told["in_schedule"] else _nearest(copy, wanted),
        )


def _nearest(copy: Database, vin: str) -> tuple[str, ...]:
    return tuple(copy.run("unit", "nearest_vin", vin=vin)["vin"])
