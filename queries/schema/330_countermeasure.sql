-- countermeasure: one row is an action against a defect; key action_id
CREATE TABLE countermeasure (
    action_id VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    owner_area VARCHAR,
    owner VARCHAR,
    "text" VARCHAR,
    opened_on DATE,
    due_on DATE,
    from_build_seq BIGINT,
    cut_in_at TIMESTAMPTZ,
    baseline_from DATE,
    baseline_to DATE,
    expected_ratio DOUBLE,
    closed_on DATE,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE countermeasure IS 'One row is an action against a defect; key action_id.';
COMMENT ON COLUMN countermeasure.action_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN countermeasure.test IS 'the test.';
COMMENT ON COLUMN countermeasure.code IS 'the code it acts on.';
COMMENT ON COLUMN countermeasure.zone IS 'the zone, null for all.';
COMMENT ON COLUMN countermeasure.owner_area IS 'area that owns it.';
COMMENT ON COLUMN countermeasure.owner IS 'who answers for it.';
COMMENT ON COLUMN countermeasure."text" IS 'what is done.';
COMMENT ON COLUMN countermeasure.opened_on IS 'when it was opened.';
COMMENT ON COLUMN countermeasure.due_on IS 'when it is due.';
COMMENT ON COLUMN countermeasure.from_build_seq IS 'first unit built with it.';
COMMENT ON COLUMN countermeasure.cut_in_at IS 'when it cut in (UTC).';
COMMENT ON COLUMN countermeasure.baseline_from IS 'first day of the baseline.';
COMMENT ON COLUMN countermeasure.baseline_to IS 'last day of the baseline.';
COMMENT ON COLUMN countermeasure.expected_ratio IS 'ratio of after to before that was hoped for.';
COMMENT ON COLUMN countermeasure.closed_on IS 'when it was closed.';
COMMENT ON COLUMN countermeasure.file_id IS 'the file.';
COMMENT ON COLUMN countermeasure.file_row IS 'row in that file.';
