-- rejected_row: one row is a row of a file that was refused, or that waits for a unit key; key file_id, file_row
CREATE TABLE rejected_row (
    file_id BIGINT,
    file_row BIGINT,
    feed VARCHAR,
    reason VARCHAR,
    waits_for VARCHAR,
    raw VARCHAR
);
COMMENT ON TABLE rejected_row IS 'One row is a row of a file that was refused, or that waits for a unit key; key file_id, file_row.';
COMMENT ON COLUMN rejected_row.file_id IS 'the file.';
COMMENT ON COLUMN rejected_row.file_row IS 'the row''s number in the file, the first data row is 1.';
COMMENT ON COLUMN rejected_row.feed IS 'the feed the row came by.';
COMMENT ON COLUMN rejected_row.reason IS 'why it was refused, in a sentence a person can act on.';
COMMENT ON COLUMN rejected_row.waits_for IS 'null for a refused row; for a waiting one the unit key it waits for, as kind=value.';
COMMENT ON COLUMN rejected_row.raw IS 'the row as it stood in the file, as a JSON object.';
