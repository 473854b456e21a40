-- station_heard: one row is a station and when it last sent a run
CREATE TABLE station_heard (
    station VARCHAR,
    last_at TIMESTAMPTZ
);
COMMENT ON TABLE station_heard IS 'One row is a station and the newest run it has sent; made anew whenever units are stamped (rules 11 and 14).';
COMMENT ON COLUMN station_heard.station IS 'the station.';
COMMENT ON COLUMN station_heard.last_at IS 'end of its newest run (UTC), counted or not.';
