-- Version 2: what lets a view of one shift read that shift alone, however long the history
-- Runs and statuses tell of their unit what views ask for; each station's newest run is kept.
-- Writes: run, superseded.run, unit_status, station_heard. Reads: unit.
ALTER TABLE run ADD COLUMN kind VARCHAR;
ALTER TABLE run ADD COLUMN model VARCHAR;
ALTER TABLE run ADD COLUMN line VARCHAR;
ALTER TABLE run ADD COLUMN build_seq BIGINT;
ALTER TABLE run ADD COLUMN earliest_at TIMESTAMPTZ;
ALTER TABLE superseded.run ADD COLUMN kind VARCHAR;
ALTER TABLE superseded.run ADD COLUMN model VARCHAR;
ALTER TABLE superseded.run ADD COLUMN line VARCHAR;
ALTER TABLE superseded.run ADD COLUMN build_seq BIGINT;
ALTER TABLE superseded.run ADD COLUMN earliest_at TIMESTAMPTZ;
COMMENT ON COLUMN run.kind IS 'stamp: kind of the unit, as in unit (rule 13); this and what follows spare views the look-up among all units.';
COMMENT ON COLUMN run.model IS 'stamp: model of the unit, as in unit.';
COMMENT ON COLUMN run.line IS 'stamp: production line of the unit, as in unit.';
COMMENT ON COLUMN run.build_seq IS 'stamp: place of the unit in the build order, as in unit.';
COMMENT ON COLUMN run.earliest_at IS 'stamp: earliest time anything is known of the unit (UTC), as in unit; a bound for look-ups.';
UPDATE run
SET kind = unit.kind, model = unit.model, line = unit.line, build_seq = unit.build_seq, earliest_at = unit.earliest_at
FROM unit
WHERE unit.vin = run.vin;

CREATE TABLE station_heard (
    test VARCHAR,
    station VARCHAR,
    last_at TIMESTAMPTZ,
    row_count BIGINT
);
COMMENT ON TABLE station_heard IS 'One row is a test x station and the newest run it has sent; made anew whenever units are stamped (rules 11 and 14).';
COMMENT ON COLUMN station_heard.test IS 'the test.';
COMMENT ON COLUMN station_heard.station IS 'the station.';
COMMENT ON COLUMN station_heard.last_at IS 'end of its newest run (UTC), counted or not.';
COMMENT ON COLUMN station_heard.row_count IS 'runs it has sent, counted or not.';
INSERT INTO station_heard
SELECT test, station, max("at") AS last_at, count(*) AS row_count
FROM run
GROUP BY test, station;

ALTER TABLE unit_status ADD COLUMN kind VARCHAR;
ALTER TABLE unit_status ADD COLUMN line_date DATE;
ALTER TABLE unit_status ADD COLUMN line_shift VARCHAR;
COMMENT ON COLUMN unit_status.kind IS 'kind of the unit, as in unit (rule 13).';
COMMENT ON COLUMN unit_status.line_date IS 'day of the shift in which the unit left the line, as in unit (rule 11).';
COMMENT ON COLUMN unit_status.line_shift IS 'that shift, as in unit.';
UPDATE unit_status
SET kind = unit.kind, line_date = unit.line_date, line_shift = unit.line_shift
FROM unit
WHERE unit.vin = unit_status.vin;
