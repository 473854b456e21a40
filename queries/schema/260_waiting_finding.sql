-- waiting_finding: one row is a finding whose run has not come yet
CREATE TABLE waiting_finding (
    test VARCHAR,
    vin VARCHAR,
    station VARCHAR,
    started_at TIMESTAMPTZ,
    run_ref VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    step VARCHAR,
    severity VARCHAR,
    quantity BIGINT,
    rating DOUBLE,
    note VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE waiting_finding IS 'One row is a finding whose run has not come yet.';
COMMENT ON COLUMN waiting_finding.test IS 'the test.';
COMMENT ON COLUMN waiting_finding.vin IS 'vin as sent.';
COMMENT ON COLUMN waiting_finding.station IS 'station.';
COMMENT ON COLUMN waiting_finding.started_at IS 'start of the run as sent (UTC).';
COMMENT ON COLUMN waiting_finding.run_ref IS 'the bench''s name of the run, null where none.';
COMMENT ON COLUMN waiting_finding.code IS 'what was found.';
COMMENT ON COLUMN waiting_finding.zone IS 'where.';
COMMENT ON COLUMN waiting_finding.step IS 'at which step.';
COMMENT ON COLUMN waiting_finding.severity IS 'severity class as sent.';
COMMENT ON COLUMN waiting_finding.quantity IS 'how many.';
COMMENT ON COLUMN waiting_finding.rating IS 'rating as sent.';
COMMENT ON COLUMN waiting_finding.note IS 'remark as sent.';
COMMENT ON COLUMN waiting_finding.file_id IS 'the file.';
COMMENT ON COLUMN waiting_finding.file_row IS 'row in that file.';
