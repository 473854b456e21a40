-- correction: one row is a mended field of a run or a unit; key correction_id
CREATE TABLE correction (
    correction_id VARCHAR,
    run_id BIGINT,
    vin VARCHAR,
    field VARCHAR,
    "value" VARCHAR,
    reason VARCHAR,
    made_by VARCHAR,
    made_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE correction IS 'One row is a mended field of a run or a unit; key correction_id.';
COMMENT ON COLUMN correction.correction_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN correction.run_id IS 'the run, null where a unit is mended.';
COMMENT ON COLUMN correction.vin IS 'the unit, null where a run is mended.';
COMMENT ON COLUMN correction.field IS 'run: vin, started_at, ended_at or result; unit: model, line, kind, build_seq or line_off_at.';
COMMENT ON COLUMN correction."value" IS 'the right value.';
COMMENT ON COLUMN correction.reason IS 'why.';
COMMENT ON COLUMN correction.made_by IS 'keyed pseudonym of who made it (rule 18).';
COMMENT ON COLUMN correction.made_at IS 'when (UTC).';
COMMENT ON COLUMN correction.file_id IS 'the file.';
COMMENT ON COLUMN correction.file_row IS 'row in that file.';
