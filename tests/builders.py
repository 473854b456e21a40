"""A unit, a run, a file, a plant in one call: rows as feeds send them, written to disk.

Times are given as `at("06:00")` or as text; a row holds only what it was given.
"""

from __future__ import annotations

import csv
import hashlib
import json
import os
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import polars as pl
from second_opinion import File, Plant

Row = dict[str, Any]
BERLIN = ZoneInfo("Europe/Berlin")
TUESDAY = date(2026, 9, 8)
MADE_AT = datetime(2026, 9, 20, tzinfo=UTC)
SHIFTS = (("E", "06:00", "14:00"), ("L", "14:00", "22:00"), ("N", "22:00", "06:00"))


def at(clock: str, day: date = TUESDAY, zone: ZoneInfo = BERLIN) -> datetime:
    """A local time of a day, with its offset; the second pass of a repeated hour ends in `*`."""
    local = datetime.fromisoformat(f"{day.isoformat()}T{clock.removesuffix('*')}")
    return local.replace(tzinfo=zone, fold=int(clock.endswith("*")))


def settings(**sections: Any) -> dict[str, Any]:
    """A plant.toml as a dict: three shifts, electrical and water, a required water pressure.

    Args:
        sections: whole sections to replace or add, such as `disturbs=[...]`.
    """
    base: dict[str, Any] = {
        "plant": {
            "name": "Quillbrook",
            "timezone": "Europe/Berlin",
            "date_by": "start",
            "starts_on": date(2026, 1, 1),
            "proof_at": ["signed_off", "ship"],
            "silence_limit": 86400,
            "settle_hours": 24,
            "demerits": {"A": 100, "B": 50, "C": 10, "D": 1},
        },
        "shift": [
            {"name": name, "starts": starts, "ends": ends, "days": "mon-sun"}
            for name, starts, ends in SHIFTS
        ],
        "test": {"electrical": declared_test(), "water": declared_test(conditions=[pressure()])},
        "inbox": {"settle_seconds": 0},
    }
    return base | sections


def declared_test(
    *,
    conditions: list[Row] | None = None,
    applies_when: str = "",
    required: str = "every",
    steps: tuple[str, ...] = ("front", "roof", "rear"),
    defect_when: str = "",
    length: int = 240,
) -> Row:
    """The section of one test."""
    return {
        "title": "",
        "length": length,
        "steps": list(steps),
        "max_quantity": 20,
        "defect_when": defect_when,
        "plan": [
            {
                "valid_from": date(2026, 1, 1),
                "required": required,
                "applies_when": applies_when,
            }
        ],
        "condition": conditions or [],
    }


def pressure(**fields: Any) -> Row:
    """The section of a required condition: 220 to 280 kPa."""
    return {
        "name": "pressure_kpa",
        "valid_from": date(2026, 1, 1),
        "lower": 220.0,
        "upper": 280.0,
        "measure_unit": "kPa",
        "required": True,
    } | fields


def unit(vin: str, **fields: Any) -> Row:
    """A row of the units feed."""
    return {"vin": vin, "model": "WAG", "line": "1", "kind": "production"} | fields


def run(
    vin: str,
    ended: str | datetime = "08:00",
    result: str = "pass",
    *findings: str | Row,
    test: str = "water",
    minutes: float = 4,
    **fields: Any,
) -> list[Row]:
    """The rows of one run: one a finding, a clean one where there is none.

    Args:
        vin: the unit.
        ended: local time of the end on 2026-09-08, or a time.
        result: pass, fail, aborted or bypass.
        findings: each as `code`, `code/zone` or `code/zone/step`, or as the fields of a row.
        test: decides the station, and whether the row has a pressure.
        minutes: how long it ran.
        fields: more columns, such as `bay` or `pressure_kpa`.
    """
    stop = at(ended) if isinstance(ended, str) else ended
    start = datetime.fromtimestamp(stop.timestamp() - 60 * minutes, tz=stop.tzinfo)
    head: Row = {
        "vin": vin,
        "station": f"{test[0].upper()}1",
        "bay": None,
        "started_at": start,
        "ended_at": stop,
        "result": result,
    }
    if test == "water":
        head["pressure_kpa"] = 250.0
    head |= fields
    return [head | finding(found) for found in findings or [{}]]


def finding(told: str | Row) -> Row:
    """The finding columns of a row from `code/zone/step`; a dash is an empty part."""
    if isinstance(told, dict):
        return {"code": None, "zone": None, "step": None} | told
    parts = [part if part not in ("", "-") else None for part in told.split("/")]
    return dict(zip(("code", "zone", "step"), [*parts, None, None], strict=False))


def repair(vin: str, ended: str | None = "10:00", **fields: Any) -> Row:
    """A row of the repairs feed, half an hour long; `ended=None` leaves it open."""
    stop = at(ended) if ended else None
    start = datetime.fromtimestamp(stop.timestamp() - 1800, tz=BERLIN) if stop else at("09:00")
    return {
        "repair_id": f"{vin}-{ended}",
        "vin": vin,
        "started_at": start,
        "ended_at": stop,
        "action": "resealed",
        "class": "repaired",
    } | fields


def event(vin: str, kind: str, clock: str | datetime = "12:00", **fields: Any) -> Row:
    """A row of the events feed."""
    when = at(clock) if isinstance(clock, str) else clock
    row = {"event_id": f"{vin}-{kind}-{when.isoformat()}", "vin": vin, "at": when, "kind": kind}
    return row | fields


def code(name: str, **fields: Any) -> Row:
    """A row of the catalogue."""
    base = {"code": name, "test": None, "title": name.title(), "severity": "C"}
    return base | {"owner_area": "paint", "safety_related": False} | fields


def file(feed: str, rows: list[Row], *, made_at: datetime = MADE_AT, name: str = "") -> File:
    """A file of a feed; its name begins with the feed, so that no mapping is needed."""
    return File(name or f"{feed}_{made_at:%Y%m%d%H%M%S}", feed, made_at, rows)


def write_files(plant: Plant, folder: Path, *, kind: str = "csv") -> tuple[Plant, list[Path]]:
    """Write every file of a plant, made when it says, and note the sha256 of each.

    Args:
        plant: files with rows.
        folder: where they go; made where it is missing.
        kind: csv or parquet.

    Returns:
        The same plant with fingerprints, and the paths in the same order.
    """
    folder.mkdir(parents=True, exist_ok=True)
    paths, files = [], []
    for number, sent in enumerate(plant.files):
        path = folder / f"{sent.name}_{number:03d}.{kind}"
        write_rows(path, sent.rows)
        os.utime(path, (sent.made_at.timestamp(),) * 2)
        paths.append(path)
        files.append(replace(sent, sha256=hashlib.sha256(path.read_bytes()).hexdigest()))
    return replace(plant, files=files), paths


def write_rows(path: Path, rows: list[Row]) -> None:
    """Write rows to a CSV or Parquet file by its suffix."""
    columns = list(dict.fromkeys(name for row in rows for name in row))
    if path.suffix == ".parquet":
        data = {name: [native(row.get(name)) for row in rows] for name in columns}
        pl.DataFrame(data, strict=False).write_parquet(path)
        return
    with path.open("w", newline="", encoding="utf-8") as stream:
        writer = csv.writer(stream)
        writer.writerow(columns)
        writer.writerows([[text(row.get(name)) for name in columns] for row in rows])


def native(value: Any) -> Any:
    """A value as Parquet holds it: times with a zone in UTC."""
    if isinstance(value, datetime) and value.tzinfo:
        return value.astimezone(UTC)
    return value


def text(value: Any) -> str:
    """A value as a CSV cell."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    return value.isoformat() if isinstance(value, date) else str(value)


def plant_toml(made: dict[str, Any]) -> str:
    """The text of a plant.toml from its dict."""
    lines: list[str] = []
    write_table(made, (), lines)
    return "\n".join(lines) + "\n"


def write_table(table: dict[str, Any], path: tuple[str, ...], lines: list[str]) -> None:
    """Write one table of a plant.toml, its own keys first."""
    nested = {name: value for name, value in table.items() if is_nested(value)}
    lines += [
        f"{name} = {toml_value(value)}"
        for name, value in table.items()
        if name not in nested and value is not None
    ]
    for name, value in nested.items():
        inner = (*path, name)
        for one in value if isinstance(value, list) else [value]:
            bracket = "[[{}]]" if isinstance(value, list) else "[{}]"
            lines.append(bracket.format(".".join(inner)))
            write_table(one, inner, lines)


def is_nested(value: Any) -> bool:
    """True for what needs a table header of its own."""
    if isinstance(value, list):
        return bool(value) and isinstance(value[0], dict)
    return isinstance(value, dict)


def toml_value(value: Any) -> str:
    """One value as TOML writes it."""
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list):
        return "[" + ", ".join(toml_value(one) for one in value) + "]"
    return json.dumps(value, ensure_ascii=False)
