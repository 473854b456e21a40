"""Keeps the versions of a suspect list in the tables containment and containment_unit, and publishes them."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import datetime

import polars as pl

from eol.errors import StoreError
from eol.plant.folder import PlantFolder
from eol.store.connect import write_lock
from eol.store.publish import publish
from eol.store.stamp import stamps_due
from eol.store.upgrade import open_upgraded

UNIT_SCHEMA = {
    "vin": pl.String(),
    "evidence": pl.String(),
    "place": pl.String(),
    "residual_risk": pl.Float64(),
}


@dataclass(frozen=True, slots=True)
class Kept:
    """A version of a suspect list as the store holds it; `fresh` where this call wrote it."""

    containment_id: str
    version: int
    sha256: str
    made_at: datetime
    fresh: bool


def keep_containment(
    folder: PlantFolder,
    *,
    containment_id: str,
    question: str,
    edges: str,
    units: pl.DataFrame,
    made_at: datetime,
    made_by: str | None = None,
    wait_seconds: float = 60,
) -> Kept:
    """Keep a suspect list as a new version, unless its newest version has the same edges and units.

    Args:
        folder: the plant folder.
        containment_id: the list: the same for the same question.
        question: what was asked, as JSON.
        edges: the edges with their reasons, as JSON.
        units: one row a unit: vin, evidence, place, residual_risk.
        made_at: the wall clock, UTC.
        made_by: keyed pseudonym of who made it (rule 18).
        wait_seconds: how long to wait for another process that writes.

    Returns:
        The version that holds the list now; older ones stay.

    Raises:
        StoreError: there is no store, another process wrote for the whole wait, or the disk is full.
    """
    if not folder.store.exists():
        raise StoreError("there is no store to keep the list in", where=str(folder.store))
    told = units.select(pl.col(name).cast(kind) for name, kind in UNIT_SCHEMA.items())
    fingerprint = sha256_of(edges, told)
    with write_lock(folder, wait_seconds=wait_seconds):
        with open_upgraded(folder) as store:
            newest = store.run("contain", "version", containment_id=containment_id).rows(named=True)
            if newest and newest[0]["sha256"] == fingerprint:
                return Kept(
                    containment_id, newest[0]["version"], fingerprint, newest[0]["made_at"], False
                )
            version = newest[0]["version"] + 1 if newest else 1
            with store.transaction(), store.lent("arriving", told):
                store.run(
                    "contain",
                    "keep",
                    containment_id=containment_id,
                    version=version,
                    made_at=made_at,
                    made_by=made_by,
                    question=question,
                    edges=edges,
                    sha256=fingerprint,
                )
            due = stamps_due(store)
        if not due:
            publish(folder)
    return Kept(containment_id, version, fingerprint, made_at, True)


def sha256_of(edges: str, units: pl.DataFrame) -> str:
    """Return the fingerprint of a list: its edges, and its units in order, one a line."""
    lines = "\n".join("\t".join(_text(value) for value in row) for row in units.iter_rows())
    return hashlib.sha256(f"{edges}\n{lines}\n".encode()).hexdigest()


def _text(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.9f}"
    return "" if value is None else str(value)
