-- finding: one row is a finding of a run; key run_id, code, zone, step
CREATE TABLE finding (
    run_id BIGINT,
    code VARCHAR,
    zone VARCHAR,
    step VARCHAR,
    severity VARCHAR,
    quantity BIGINT,
    rating DOUBLE,
    note VARCHAR,
    counts_as VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE finding IS 'One row is a finding of a run; key run_id, code, zone, step.';
COMMENT ON COLUMN finding.run_id IS 'the run.';
COMMENT ON COLUMN finding.code IS 'what was found.';
COMMENT ON COLUMN finding.zone IS 'where on the unit, or which module; null where unknown.';
COMMENT ON COLUMN finding.step IS 'track element, spray phase or test step; null where unknown.';
COMMENT ON COLUMN finding.severity IS 'severity class as sent, null where the catalogue is to say.';
COMMENT ON COLUMN finding.quantity IS 'how many, null is 1; outside 1..max_quantity set to null (rule 8).';
COMMENT ON COLUMN finding.rating IS 'rating as sent.';
COMMENT ON COLUMN finding.note IS 'remark as sent.';
COMMENT ON COLUMN finding.counts_as IS 'stamp: defect, retest, masked, repeat, observation, equipment or void (rule 8).';
COMMENT ON COLUMN finding.file_id IS 'file; null for a stamped UNSPECIFIED.';
COMMENT ON COLUMN finding.file_row IS 'row in that file.';
