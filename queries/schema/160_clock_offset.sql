-- clock_offset: one row is a bench clock known to be wrong for a while
CREATE TABLE clock_offset (
    station VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    seconds DOUBLE
);
COMMENT ON TABLE clock_offset IS 'One row is a bench clock known to be wrong for a while.';
COMMENT ON COLUMN clock_offset.station IS 'name of the station.';
COMMENT ON COLUMN clock_offset.valid_from IS 'from when the offset applies, by the bench''s own time (UTC).';
COMMENT ON COLUMN clock_offset.valid_to IS 'until when, exclusive, by the bench''s own time (UTC), null where open.';
COMMENT ON COLUMN clock_offset.seconds IS 'seconds added to the bench''s time.';
