-- waiting_reading: one row is a reading whose run has not come yet
CREATE TABLE waiting_reading (
    test VARCHAR,
    vin VARCHAR,
    station VARCHAR,
    started_at TIMESTAMPTZ,
    run_ref VARCHAR,
    name VARCHAR,
    sample BIGINT,
    "value" DOUBLE,
    lower DOUBLE,
    upper DOUBLE,
    measure_unit VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE waiting_reading IS 'One row is a reading whose run has not come yet.';
COMMENT ON COLUMN waiting_reading.test IS 'the test.';
COMMENT ON COLUMN waiting_reading.vin IS 'vin as sent.';
COMMENT ON COLUMN waiting_reading.station IS 'station.';
COMMENT ON COLUMN waiting_reading.started_at IS 'start of the run as sent (UTC).';
COMMENT ON COLUMN waiting_reading.run_ref IS 'the bench''s name of the run, null where none.';
COMMENT ON COLUMN waiting_reading.name IS 'what was measured.';
COMMENT ON COLUMN waiting_reading.sample IS 'number of the sample.';
COMMENT ON COLUMN waiting_reading."value" IS 'the number.';
COMMENT ON COLUMN waiting_reading.lower IS 'lower limit as sent.';
COMMENT ON COLUMN waiting_reading.upper IS 'upper limit as sent.';
COMMENT ON COLUMN waiting_reading.measure_unit IS 'unit of measure.';
COMMENT ON COLUMN waiting_reading.file_id IS 'the file.';
COMMENT ON COLUMN waiting_reading.file_row IS 'row in that file.';
