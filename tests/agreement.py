"""A plant through the tool, and what its rows and views say otherwise than the second opinion."""

from __future__ import annotations

import math
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import builders as b
from plants import blank_store
from second_opinion import Opinion, Plant

from eol.load.ingest import IngestResult, ingest
from eol.plant.folder import PlantFolder, init_folder
from eol.store.connect import open_copy

Row = dict[str, Any]
SHIFT = ("production_date", "shift")
UNIT = ("vin", "test")
TOLD = ("vin", "at", "step_no", "place", "outcome", "detail", "run_id")
"""All that a timeline tells: two repairs may read alike."""
KEYS: dict[str, tuple[str, ...]] = {
    "run": ("test", "station", "run_ref", "vin_sent", "started_at_sent"),
    "finding": ("run_id", "code", "zone", "step"),
    "unit": ("vin",),
    "unit_status": UNIT,
    "as_of": (),
    "attribute_latest": ("vin", "name"),
    "first_run": UNIT,
    "first_run_all": UNIT,
    "defect": (*UNIT, "code", "zone"),
    "defect_all": (*UNIT, "code", "zone"),
    "ftt_by_shift": (*SHIFT, "test"),
    "dphu_by_shift": (*SHIFT, "test"),
    "pareto_by_shift": (*SHIFT, "test", "code"),
    "pareto_window": (*SHIFT, "test", "code"),
    "line_by_shift": SHIFT,
    "ftt_by_build": (*SHIFT, "model", "test"),
    "bay_by_shift": (*SHIFT, "test", "station", "bay"),
    "open_unit": UNIT,
    "escape": UNIT,
    "unproven": UNIT,
    "unchecked": ("vin", "test", "run_id"),
    "fail_to_clear": (*UNIT, "passed_at"),
    "unit_timeline": TOLD,
    "safety_listed": (*UNIT, "code", "zone"),
    "release_given": ("vin", "at", "reference"),
    "run_of_unit": ("run_id",),
    "classed_finding": ("run_id", "code", "zone", "step"),
    "tested_unit": UNIT,
    "catalogue": ("code", "test", "from_at"),
    "fail_loop": ("run_id",),
    "lacking_proof": UNIT,
    "scoped_unit": ("windows", *SHIFT, "run_id"),
    "unit_at_risk": ("windows", *SHIFT, "run_id", "code"),
    "station_latest": ("station",),
    "feed_status": ("feed", "station"),
    "shift_cover": (*SHIFT, "part_date", "part_shift"),
    "line_standing": UNIT,
    "reference_check": ("run_id",),
    "figure_now": ("figure", "key"),
}
"""What names a row of each table and view that is compared."""

LATER = {"figure_change": ("message_id", "figure", "key")}
"""The same of what a first load leaves empty."""

APART = {"operator", "run_key", "key", "natural_key", "rank", "moved", "suspect", "any_row"}
APART |= {"findings", "readings", "release", "revision", "note", "file_row"}
"""Fields that are of one side's making, or pseudonyms."""


def load(plant: Plant, root: Path, *, kind: str = "csv") -> tuple[Plant, PlantFolder, IngestResult]:
    """Write a plant's files, in their order, and take them in.

    Returns:
        The plant with the fingerprints of its files, its folder, and what became of the files.
    """
    declared = plant.settings["plant"]
    folder = init_folder(root / "plant", name=declared["name"], starts_on=declared["starts_on"])
    folder.toml.write_text(b.plant_toml(plant.settings), encoding="utf-8")
    folder.store.write_bytes(blank_store())
    written, paths = b.write_files(plant, root / "files", kind=kind)
    return written, folder, ingest(folder, paths)


def said(folder: PlantFolder, names: list[str]) -> dict[str, list[Row]]:
    """The rows of some tables and views of the published copy."""
    with open_copy(folder) as copy:
        return {name: copy.view(name).to_dicts() for name in names}


def thought(opinion: Opinion, name: str) -> list[Row]:
    """The rows of one table or view as the second opinion has them."""
    return opinion.views[name] if name in opinion.views else opinion.tables[name]


def differences(name: str, ours: list[Row], theirs: list[Row]) -> list[str]:
    """What one table or view says otherwise, a line each: rows missing, rows too many, fields.

    Args:
        name: the table or view.
        ours: rows of the second opinion.
        theirs: rows of the tool.
    """
    key = (KEYS | LATER)[name]
    one, other = (by_key(key, rows) for rows in (ours, theirs))
    lines = [f"{name} {row_name(k)}: missing" for k in one if k not in other]
    lines += [f"{name} {row_name(k)}: too many" for k in other if k not in one]
    for k in one:
        for field, value in one[k].items() if k in other else ():
            if field not in APART and not same(value, other[k].get(field, "no such column")):
                found = other[k].get(field, "no such column")
                lines.append(f"{name} {row_name(k)} {field}: {value!r} here, {found!r} in the tool")
    return lines


def by_key(key: tuple[str, ...], rows: list[Row]) -> dict[Any, Row]:
    """Rows by what names them; two of one name fail, unless the key is the whole row."""
    met: Counter[Any] = Counter()
    found: dict[Any, Row] = {}
    for row in rows:
        name = tuple(plain(row[part]) for part in key)
        found[*name, met[name]] = row
        met[name] += 1
    assert key == TOLD or len(met) == len(rows), f"{len(rows) - len(met)} rows share a key {key}"
    return found


def row_name(key: tuple[Any, ...]) -> str:
    """A key in words."""
    return "/".join(str(part) for part in key)


def plain(value: Any) -> Any:
    """A value without its dress: times in UTC."""
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    return value


def same(one: Any, other: Any) -> bool:
    """Counts and words exactly, ratios to 1e-12."""
    if isinstance(one, float) or isinstance(other, float):
        if one is None or other is None or isinstance(one, str) or isinstance(other, str):
            return False
        return math.isclose(one, other, rel_tol=1e-12, abs_tol=1e-12)
    return bool(plain(one) == plain(other))
