-- source_file: one row is a file taken in; key file_id
CREATE TABLE source_file (
    file_id BIGINT,
    feed VARCHAR,
    path VARCHAR,
    sha256 VARCHAR,
    bytes BIGINT,
    made_at TIMESTAMPTZ,
    loaded_at TIMESTAMPTZ,
    rows BIGINT,
    accepted BIGINT,
    repeated BIGINT,
    amended BIGINT,
    rejected BIGINT
);
COMMENT ON TABLE source_file IS 'One row is a file taken in; key file_id.';
COMMENT ON COLUMN source_file.file_id IS '60 bits of the content''s sha256.';
COMMENT ON COLUMN source_file.feed IS 'the feed it belongs to, as plant.toml or the file''s name says.';
COMMENT ON COLUMN source_file.path IS 'where it lay when it was first loaded.';
COMMENT ON COLUMN source_file.sha256 IS 'fingerprint of the bytes (FIPS 180-4), lower-case hexadecimal.';
COMMENT ON COLUMN source_file.bytes IS 'size of the file in bytes.';
COMMENT ON COLUMN source_file.made_at IS 'when the file was made: its name''s time, else its modification time; the earliest under which this content came (rule 1).';
COMMENT ON COLUMN source_file.loaded_at IS 'when the content was first loaded, by the wall clock, UTC.';
COMMENT ON COLUMN source_file.rows IS 'data rows in the file.';
COMMENT ON COLUMN source_file.accepted IS 'rows that became new rows of a table.';
COMMENT ON COLUMN source_file.repeated IS 'rows that a table already held, the same.';
COMMENT ON COLUMN source_file.amended IS 'rows that replaced, or lost to, another version of the same row.';
COMMENT ON COLUMN source_file.rejected IS 'rows refused, in rejected_row.';
