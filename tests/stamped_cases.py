"""What stamps repeat in rows that were not stamped: a run's unit, and each station's newest run."""

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
DELETE FROM station_heard;
INSERT INTO station_heard SELECT station, max("at") FROM run GROUP BY station;
"""
