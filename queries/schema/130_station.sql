-- station: one row is a bay of a station of a test
CREATE TABLE station (
    station VARCHAR,
    test VARCHAR,
    bay VARCHAR,
    alias VARCHAR
);
COMMENT ON TABLE station IS 'One row is a bay of a station of a test.';
COMMENT ON COLUMN station.station IS 'name of the station.';
COMMENT ON COLUMN station.test IS 'test that the station runs.';
COMMENT ON COLUMN station.bay IS 'name of the bay, null where the station has one place.';
COMMENT ON COLUMN station.alias IS 'another name under which a feed may send the bay, null where none.';
