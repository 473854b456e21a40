-- reading: one row is a measured number of a run; key run_id, name, sample
CREATE TABLE reading (
    run_id BIGINT,
    name VARCHAR,
    sample BIGINT,
    "value" DOUBLE,
    lower DOUBLE,
    upper DOUBLE,
    measure_unit VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE reading IS 'One row is a measured number of a run; key run_id, name, sample.';
COMMENT ON COLUMN reading.run_id IS 'the run.';
COMMENT ON COLUMN reading.name IS 'what was measured.';
COMMENT ON COLUMN reading.sample IS 'number of the sample, from 1.';
COMMENT ON COLUMN reading."value" IS 'the number.';
COMMENT ON COLUMN reading.lower IS 'lower limit as sent, null where none.';
COMMENT ON COLUMN reading.upper IS 'upper limit as sent, null where none.';
COMMENT ON COLUMN reading.measure_unit IS 'unit of measure.';
COMMENT ON COLUMN reading.file_id IS 'the file.';
COMMENT ON COLUMN reading.file_row IS 'row in that file.';
