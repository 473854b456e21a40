-- twin: one row is a run that equals another but for one hour (rule 2)
CREATE TABLE twin (
    run_id BIGINT,
    twin_run_id BIGINT,
    told_by BIGINT,
    twin_told_by BIGINT,
    vin VARCHAR,
    by_name BOOLEAN
);
COMMENT ON TABLE twin IS 'One row is a run that equals another but for one hour (rule 2).';
COMMENT ON COLUMN twin.run_id IS 'the run told later.';
COMMENT ON COLUMN twin.twin_run_id IS 'the run told first.';
COMMENT ON COLUMN twin.told_by IS 'file that told the run first.';
COMMENT ON COLUMN twin.twin_told_by IS 'file that told its twin first.';
COMMENT ON COLUMN twin.vin IS 'the unit, as sent.';
COMMENT ON COLUMN twin.by_name IS 'true where both are versions of one run_ref.';
