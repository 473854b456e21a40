-- keyed_row: one row is a row of a file whose unit was named by a unit key, and is stored; key file_id, file_row (rule 17)
CREATE TABLE keyed_row (
    file_id BIGINT,
    file_row BIGINT,
    feed VARCHAR,
    key VARCHAR,
    "at" TIMESTAMPTZ,
    vin VARCHAR,
    raw VARCHAR
);
COMMENT ON TABLE keyed_row IS 'One row is a row of a file whose unit was named by a unit key, and is stored; key file_id, file_row (rule 17).';
COMMENT ON COLUMN keyed_row.file_id IS 'the file.';
COMMENT ON COLUMN keyed_row.file_row IS 'the row''s number in the file, the first data row is 1.';
COMMENT ON COLUMN keyed_row.feed IS 'the feed the row came by.';
COMMENT ON COLUMN keyed_row.key IS 'the unit key, as kind=value.';
COMMENT ON COLUMN keyed_row."at" IS 'the row''s own time (UTC), at which the key was asked for; null where it has none.';
COMMENT ON COLUMN keyed_row.vin IS 'the unit that the key named then.';
COMMENT ON COLUMN keyed_row.raw IS 'the row as it stood in the file, as a JSON object.';
