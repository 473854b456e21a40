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
    file_row BIGINT,
    test VARCHAR,
    vin VARCHAR,
    "at" TIMESTAMPTZ,
    kind VARCHAR,
    production_date DATE,
    line_date DATE,
    line_shift VARCHAR
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
COMMENT ON COLUMN finding.test IS 'stamp: test of the run; this and what follows spare views the look-up among all runs.';
COMMENT ON COLUMN finding.vin IS 'stamp: unit of the run, as in run.';
COMMENT ON COLUMN finding."at" IS 'stamp: when the run counts (UTC), as in run (rule 3).';
COMMENT ON COLUMN finding.kind IS 'stamp: kind of the unit, as in unit (rule 13).';
COMMENT ON COLUMN finding.production_date IS 'stamp: day of the shift of the run, as in run (rule 3).';
COMMENT ON COLUMN finding.line_date IS 'stamp: day of the shift in which the unit left the line, as in unit (rule 11).';
COMMENT ON COLUMN finding.line_shift IS 'stamp: that shift, as in unit.';
