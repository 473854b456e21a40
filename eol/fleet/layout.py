"""Which tables of the store stand in a lake, and into which month of it a row goes.

A row of a run lies in the month of the run's production date, a row of a unit in the month in which
the unit left the line (else was first heard of), so that a shift touches one month or two. What a
plant declares lies in one part.
"""

from __future__ import annotations

BY_RUN = ("run", "finding", "reading")
BY_UNIT = ("unit", "unit_sent", "unit_status", "attribute", "event", "repair")
BY_DATE = ("answer",)
WHOLE = (
    "plant_setting",
    "proof_event",
    "demerit_weight",
    "test_definition",
    "test_step",
    "test_plan",
    "condition_limit",
    "defect_condition",
    "applies",
    "station",
    "reference",
    "disturbs",
    "clock_offset",
    "shift_window",
    "defect_code",
    "zone",
    "countermeasure",
    "lot",
    "source_file",
    "station_heard",
    "report_sent",
    "figure_sent",
)
MONTHLY = (*BY_RUN, *BY_UNIT, *BY_DATE)
TABLES = (*MONTHLY, *WHOLE)

KEY = {**dict.fromkeys(BY_RUN, "run_id"), **dict.fromkeys(BY_UNIT, "vin")}
"""What a row belongs to; where that moves to another month, its rows move with it."""

DECLARED = (*WHOLE,)
"""Small tables: a view that reads these alone is computed on the driver of a cluster."""

PART = "part-0.parquet"
"""One fixed name in each partition, so that a part that comes again is never a second one."""


def part_path(table: str, plant: str, month: str) -> str:
    """Return where a part lies below the lake's root; `month` is empty for a table that has none.

    Example:
        >>> part_path("run", "P1", "2026-03")
        'run/plant=P1/production_month=2026-03/part-0.parquet'
    """
    partition = f"/production_month={month}" if month else ""
    return f"{table}/plant={plant}{partition}/{PART}"


def staged_path(plant: str, generation: int, part: str, step: int = 0) -> str:
    """Return where a part waits to be put in place.

    The folder begins with `_`, which Spark passes over, and the file ends in `.tmp`, which a
    pattern `**/*.parquet` of DuckDB's does not match. Named by its path it can be read: of a file
    that begins with `_` Spark reads no row.

    Example:
        >>> staged_path("P1", 4, "run/plant=P1/production_month=2026-03/part-0.parquet", 1)
        '_stage/P1/4.1/run/plant=P1/production_month=2026-03/part-0.parquet.tmp'
    """
    return f"_stage/{plant}/{generation}.{step}/{part}.tmp"
