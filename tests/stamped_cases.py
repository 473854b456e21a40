"""What stamps repeat in rows that were not stamped: of the unit, and each station's newest run."""

from __future__ import annotations


def stamped(*, plants: bool = False) -> str:
    """The statements that fill it in; in tables of several plants each plant by itself."""
    same, plant = ("unit.plant = {0}.plant AND ", "plant, ") if plants else ("", "")
    return f"""
UPDATE run
SET
    kind = unit.kind,
    model = unit.model,
    line = unit.line,
    build_seq = unit.build_seq,
    earliest_at = unit.earliest_at
FROM unit
WHERE {same.format("run")}unit.vin = run.vin;
UPDATE unit_status
SET kind = unit.kind, line_date = unit.line_date, line_shift = unit.line_shift
FROM unit
WHERE {same.format("unit_status")}unit.vin = unit_status.vin;
DELETE FROM station_heard;
INSERT INTO station_heard BY NAME
SELECT {plant}test, station, max("at") AS last_at, count(*) AS row_count
FROM run
GROUP BY {plant}test, station;
"""
