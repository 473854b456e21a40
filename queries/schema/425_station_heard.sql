-- station_heard: one row is a test x station and when it last sent a run
CREATE TABLE station_heard (
    test VARCHAR,
    station VARCHAR,
    last_at TIMESTAMPTZ,
    row_count BIGINT
);
COMMENT ON TABLE station_heard IS 'One row is a test x station and the newest run it has sent; kept up to date whenever units are stamped (rules 11 and 14).';
COMMENT ON COLUMN station_heard.test IS 'the test.';
COMMENT ON COLUMN station_heard.station IS 'the station.';
COMMENT ON COLUMN station_heard.last_at IS 'end of its newest run (UTC), counted or not.';
COMMENT ON COLUMN station_heard.row_count IS 'runs it has sent, counted or not.';
