"""What stamps repeat in rows that were not stamped: of the unit, and each station's newest run."""

STAMPED = """
UPDATE run
SET
    kind = unit.kind,
    model = unit.model,
    line = unit.line,
    build_seq = unit.build_seq,
    earliest_at = unit.earliest_at
FROM unit
WHERE unit.vin = run.vin;
UPDATE unit_status
SET kind = unit.kind, line_date = unit.line_date, line_shift = unit.line_shift
FROM unit
WHERE unit.vin = unit_status.vin;
DELETE FROM station_heard;
INSERT INTO station_heard SELECT test, station, max("at"), count(*) FROM run GROUP BY test, station;
"""
