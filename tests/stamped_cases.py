"""What stamps repeat in rows that were not stamped: of the unit, and each station's newest run."""

from __future__ import annotations


def stamped(*, plants: bool = False) -> str:
    """The statements that fill it in; in tables of several plants each plant by itself."""
    same, plant = ("unit.plant = {0}.plant AND ", "plant, ") if plants else ("", "")
    of_run = "run.plant, " if plants else ""
    of_finding = "told.plant = finding.plant AND " if plants else ""
    of_asked = "asked.plant = unit_status.plant AND " if plants else ""
    of_event = "event.plant, " if plants else ""
    of_proof = "event.plant = proof_event.plant AND " if plants else ""
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
UPDATE unit_status
SET asked_by = asked.kind, asked_at = asked."at"
FROM (
    SELECT {of_event}event.vin, min_by(event.kind, (event."at", event.kind)) AS kind, min(event."at") AS "at"
    FROM event
    INNER JOIN proof_event ON {of_proof}event.kind = proof_event.kind
    GROUP BY {of_event}event.vin
) AS asked
WHERE {of_asked}asked.vin = unit_status.vin AND unit_status.clear_at IS NULL;
UPDATE finding
SET
    test = told.test,
    vin = told.vin,
    "at" = told."at",
    kind = told.kind,
    production_date = told.production_date,
    line_date = told.line_date,
    line_shift = told.line_shift
FROM (
    SELECT
        {of_run}run.run_id,
        run.test,
        run.vin,
        run."at",
        run.production_date,
        unit.kind,
        unit.line_date,
        unit.line_shift
    FROM run
    LEFT JOIN unit ON {same.format("run")}unit.vin = run.vin
) AS told
WHERE {of_finding}told.run_id = finding.run_id;
DELETE FROM station_heard;
INSERT INTO station_heard BY NAME
SELECT {plant}test, station, max("at") AS last_at, count(*) AS row_count
FROM run
GROUP BY {plant}test, station;
"""
