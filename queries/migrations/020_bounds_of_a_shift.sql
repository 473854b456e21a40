-- Version 2: what lets a view of one shift read that shift alone, however long the history
-- Each run tells of its unit what views ask for; each station's newest run is kept. Writes: run, superseded.run, station_heard.
-- Reads: unit.
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
    station VARCHAR,
    last_at TIMESTAMPTZ
);
COMMENT ON TABLE station_heard IS 'One row is a station and the newest run it has sent; made anew whenever units are stamped (rules 11 and 14).';
COMMENT ON COLUMN station_heard.station IS 'the station.';
COMMENT ON COLUMN station_heard.last_at IS 'end of its newest run (UTC), counted or not.';
INSERT INTO station_heard SELECT station, max("at") AS last_at FROM run GROUP BY station;
