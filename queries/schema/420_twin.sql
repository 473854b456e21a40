-- twin: one row is a version of a run that equals one of another file but for one hour (rule 2)
CREATE TABLE twin (
    run_id BIGINT,
    file_id BIGINT,
    twin_run_id BIGINT,
    twin_file_id BIGINT,
    step_seconds BIGINT,
    by_name BOOLEAN,
    vin VARCHAR
);
COMMENT ON TABLE twin IS 'One row is a version of a run that equals one of another file but for one hour (rule 2).';
COMMENT ON COLUMN twin.run_id IS 'the run of the later file.';
COMMENT ON COLUMN twin.file_id IS 'the later file.';
COMMENT ON COLUMN twin.twin_run_id IS 'the run of the earlier file.';
COMMENT ON COLUMN twin.twin_file_id IS 'the earlier file.';
COMMENT ON COLUMN twin.step_seconds IS '3600 or -3600: how far the later file moved the run.';
COMMENT ON COLUMN twin.by_name IS 'true where both are versions of one run_ref.';
COMMENT ON COLUMN twin.vin IS 'the unit, as sent.';
