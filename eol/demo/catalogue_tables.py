"""What the plant declares by feed: codes, zones, calendar, lots and countermeasures, as frames."""

from __future__ import annotations

from datetime import timedelta

import polars as pl

from eol.demo.catalogue import CODES, ZONES
from eol.demo.plan import FIRST_DAY, SHIFTS, moment, shift_of
from eol.demo.stories import (
    DOOR_FROM_SEQ,
    MIRROR_FROM_SEQ,
    TAPE_FROM_SEQ,
    TAPE_TRIGGER,
    clip_lots,
)

UTC_TIME = pl.Datetime("us", "UTC")


def code_rows() -> pl.DataFrame:
    """Return the rows of the feed defect_codes."""
    rows = [
        {
            "code": code.code,
            "test": code.test,
            "title": code.title,
            "severity": code.severity,
            "owner_area": code.owner_area,
            "safety_related": code.handling is not None,
            "handling": code.handling,
            "applies_when": code.applies_when,
        }
        for code in CODES
    ]
    return pl.DataFrame(rows, infer_schema_length=None)


def zone_rows() -> pl.DataFrame:
    """Return the rows of the feed zones, for all tests alike."""
    columns = ["zone", "title", "cell", "outline", "hv_near"]
    return pl.DataFrame(ZONES, schema=columns, orient="row")


def shift_rows() -> pl.DataFrame:
    """Return the rows of the feed shifts: the calendar with its crews."""
    rows = [
        {
            "production_date": shift.production_date,
            "shift": shift.name,
            "crew": shift.crew,
            "starts_at": moment(shift.starts),
            "ends_at": moment(shift.ends),
            "cancelled": False,
        }
        for shift in SHIFTS
    ]
    return pl.DataFrame(rows, schema_overrides={"starts_at": UTC_TIME, "ends_at": UTC_TIME})


def lot_rows() -> pl.DataFrame:
    """Return the rows of the feed lots."""
    rows = [(lot.part, lot.lot, lot.first_seq, lot.last_seq) for lot in clip_lots()]
    columns = ["part", "lot", "from_build_seq", "to_build_seq"]
    return pl.DataFrame(rows, schema=columns, orient="row")


def countermeasure_rows() -> pl.DataFrame:
    """Return the rows of the feed countermeasures: one that worked, one that did not, one too new."""
    day_before_trigger = TAPE_TRIGGER.production_date - timedelta(days=3)
    mirror = ("CM-01", "electrical", "EL-MIRROR", "doors", "Door line lead")
    tape = ("CM-02", "squeak_rattle", "SR-CREAK", "trim", "Trim line lead")
    door = ("CM-03", "water", "WL-DOOR", "doors", "Door line lead")
    rows = [
        (*mirror, "Connector with a second latch", FIRST_DAY, MIRROR_FROM_SEQ,
         shift_of(9, "day"), FIRST_DAY, shift_of(8, "day").production_date, 0.3),
        (*tape, "Felt tape under the dash", TAPE_TRIGGER.production_date, TAPE_FROM_SEQ,
         SHIFTS[TAPE_TRIGGER.number + 1], day_before_trigger, TAPE_TRIGGER.production_date, 0.5),
        (*door, "Door seal with a harder lip", shift_of(16, "day").production_date, DOOR_FROM_SEQ,
         SHIFTS[-1], FIRST_DAY, shift_of(20, "day").production_date, 0.5),
    ]  # fmt: skip
    names = ("action_id", "test", "code", "owner_area", "owner", "text", "opened_on",
             "from_build_seq", "cut_in_at", "baseline_from", "baseline_to", "expected_ratio")  # fmt: skip
    sent = [(*row[:8], moment(row[8].starts), *row[9:]) for row in rows]
    frame = pl.DataFrame(sent, schema=list(names), orient="row")
    due = (pl.col("opened_on") + pl.duration(days=14)).alias("due_on")
    return frame.with_columns(pl.col("cut_in_at").cast(UTC_TIME), due)
