"""The record as frames in the tool's own feed columns, one function a feed; times in UTC."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import polars as pl

from eol.demo.catalogue import TESTS
from eol.demo.dirt import as_sent
from eol.demo.plan import MINUTE, moment
from eol.demo.units import UNITS, Unit
from eol.demo.world import Event, Fault, Repair, Run

UTC_TIME = pl.Datetime("us", "UTC")

_TEXT, _NUMBER = pl.String(), pl.Float64()

_RUN_COLUMNS: dict[str, pl.DataType] = {
    "vin": _TEXT,
    "station": _TEXT,
    "bay": _TEXT,
    "run_ref": _TEXT,
    "started_at": UTC_TIME,
    "ended_at": UTC_TIME,
    "result": _TEXT,
    "purpose": _TEXT,
    "program": _TEXT,
    "operator": _TEXT,
    "last_step": _TEXT,
    "code": _TEXT,
    "zone": _TEXT,
    "step": _TEXT,
    "pressure_kpa": _NUMBER,
    "duration_s": _NUMBER,
    "flow_lpm": _NUMBER,
}
_ONLY = {
    "bay": "water",
    "run_ref": "water",
    "pressure_kpa": "water",
    "duration_s": "water",
    "flow_lpm": "water",
    "operator": "squeak_rattle",
}
"""Columns that one test alone sends."""


def test_rows(test: str, runs: Iterable[Run]) -> pl.DataFrame:
    """Return the rows of a test feed: one a finding, one for a clean run, in the order of starts."""
    ordered = sorted(runs, key=lambda run: (run.started, run.station, run.vin))
    rows = [row for run in ordered for row in _run_rows(run)]
    columns = [name for name in _RUN_COLUMNS if _ONLY.get(name, test) == test]
    return pl.DataFrame(rows, schema=_RUN_COLUMNS, orient="row").select(columns)


def name_runs(runs: Iterable[Run]) -> None:
    """Number the water runs as the station's own counter does."""
    water = [run for run in runs if run.test == "water"]
    for number, run in enumerate(sorted(water, key=lambda run: (run.started, run.bay or ""))):
        run.run_ref = f"W{700_001 + number}"


def unit_rows(units: Iterable[Unit]) -> pl.DataFrame:
    """Return the rows of the feed units; roof, drive, colour and sealer_robot are attributes."""
    return pl.DataFrame(
        [
            {
                "vin": unit.vin,
                "build_seq": unit.build_seq,
                "model": unit.model,
                "line": "F1",
                "kind": unit.kind,
                "line_off_at": None if unit.line_off is None else moment(unit.line_off),
                "roof": unit.roof,
                "drive": unit.drive,
                "colour": unit.colour,
                "sealer_robot": unit.robot,
            }
            for unit in units
        ],
        schema_overrides={"build_seq": pl.Int64, "line_off_at": UTC_TIME},
    )


def attribute_rows(units: Iterable[Unit]) -> pl.DataFrame:
    """Return the rows of the feed attributes: each unit's bead, and its clip lot where known."""
    rows = [row for unit in units for row in _attributes(unit)]
    columns = (
        "vin",
        "name",
        "at",
        "station",
        "source",
        "text_value",
        "number_value",
        "measure_unit",
    )
    types: dict[str, pl.DataType] = {"at": UTC_TIME, "number_value": _NUMBER}
    schema = {name: types.get(name, _TEXT) for name in columns}
    return pl.DataFrame(rows, schema=schema, orient="row")


def repair_rows(repairs: Sequence[Repair]) -> pl.DataFrame:
    """Return the rows of the feed repairs, numbered in the order of their starts."""
    rows = [
        {
            "repair_id": f"RP-{number + 1:05}",
            "vin": repair.vin,
            "test": repair.test,
            "code": repair.code,
            "zone": repair.zone or None,
            "started_at": moment(repair.started),
            "ended_at": None if repair.ended is None else moment(repair.ended),
            "action": repair.action,
            "class": repair.kind,
            "owner_area": repair.owner_area,
            "place": repair.place,
            "part": repair.part,
            "lot": repair.lot,
            "entered_at": moment((repair.ended or repair.started) + 2 * MINUTE),
        }
        for number, repair in enumerate(repairs)
    ]
    return pl.DataFrame(rows, schema_overrides=_repair_types(), infer_schema_length=None)


def event_rows(events: Sequence[Event]) -> pl.DataFrame:
    """Return the rows of the feed events in the order of time."""
    rows = [
        (
            f"EV-{number + 1:05}",
            event.vin,
            moment(event.at),
            event.kind,
            event.place,
            event.reference,
            event.note,
            event.entered_by,
        )
        for number, event in enumerate(events)
    ]
    columns = ("event_id", "vin", "at", "kind", "place", "reference", "note", "entered_by")
    schema = {name: UTC_TIME if name == "at" else _TEXT for name in columns}
    return pl.DataFrame(rows, schema=schema, orient="row")


def _run_rows(run: Run) -> Iterable[tuple[object, ...]]:
    head = (
        run.vin,
        run.station,
        run.bay,
        run.run_ref,
        moment(as_sent(run, run.started)),
        moment(as_sent(run, run.ended)),
        run.result,
        run.purpose,
        _program(run),
        run.operator,
        run.last_step,
    )
    conditions = run.conditions or (None, None, None)
    for fault in run.findings or (None,):
        yield (*head, *_finding(fault), *conditions)


def _finding(fault: Fault | None) -> tuple[str | None, str | None, str | None]:
    return (None, None, None) if fault is None else (fault.code, fault.zone or None, fault.step)


def _program(run: Run) -> str:
    position = [test.name for test in TESTS].index(run.test) + 1
    return f"{run.unit.model}-{position}.2"


def _attributes(unit: Unit) -> Iterable[tuple[object, ...]]:
    if unit.number >= UNITS:
        return
    yield (
        unit.vin,
        "sealer_bead",
        moment(unit.sealed),
        unit.robot,
        "body shop",
        None,
        unit.bead,
        "mm",
    )
    if unit.clip_lot is not None:
        yield (unit.vin, "clip_lot", None, None, "trim line", unit.clip_lot, None, None)


def _repair_types() -> dict[str, pl.DataType]:
    times = ("started_at", "ended_at", "entered_at")
    return dict.fromkeys(times, UTC_TIME) | {"part": pl.String(), "lot": pl.String()}
