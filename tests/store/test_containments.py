"""Versions of a suspect list: hashed, kept, published."""

from __future__ import annotations

from datetime import UTC, datetime

import plants
import polars as pl
import pytest

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import write_lock
from eol.store.containments import UNIT_SCHEMA, Kept, keep_containment, sha256_of

AT = datetime(2026, 9, 20, 6, tzinfo=UTC)
UNITS = pl.DataFrame(
    [["U1", "passed", "yard", 0.1], ["U2", "confirmed", None, None]], UNIT_SCHEMA, orient="row"
)


def keep(
    folder: PlantFolder, units: pl.DataFrame = UNITS, edges: str = "[]", **more: float
) -> Kept:
    """Keep a list."""
    told = {"containment_id": "ab", "question": "{}", "edges": edges, "units": units, "made_at": AT}
    return keep_containment(folder, **told, **more)  # type: ignore[arg-type]


def test_versions(folder: PlantFolder) -> None:
    """The same list keeps its version; another unit or edge makes the next one, and older ones stay."""
    kept = [keep(folder), keep(folder), keep(folder, UNITS[:1]), keep(folder, UNITS[:1], '["x"]')]
    assert [(one.version, one.fresh) for one in kept] == [
        (1, True),
        (1, False),
        (2, True),
        (3, True),
    ]
    assert plants.column(folder, "containment", "version") == [1, 2, 3]
    assert plants.count(folder, "containment_unit", version=1) == 2
    assert kept[0].sha256 == plants.rows(folder, "containment", version=1)[0]["sha256"]


def test_fingerprint() -> None:
    """Order, place and risk are in it."""
    assert sha256_of("[]", UNITS) != sha256_of("[]", UNITS.reverse())
    assert sha256_of("[]", UNITS) != sha256_of("[]", UNITS.with_columns(residual_risk=pl.lit(0.2)))
    assert len(sha256_of("", UNITS[:0])) == 64


def test_under_the_write_lock(folder: PlantFolder) -> None:
    """While another process writes nothing is kept."""
    with write_lock(folder), pytest.raises(StoreError, match="in use by process"):
        keep(folder, wait_seconds=0)
    assert plants.count(folder, "containment") == 0


def test_no_store(folder: PlantFolder) -> None:
    """A copy alone keeps nothing."""
    folder.store.unlink()
    with pytest.raises(StoreError, match="no store"):
        keep(folder)
