-- seen_file: one row is a file of the inbox as it was last looked at; key path
CREATE TABLE seen_file (
    path VARCHAR,
    bytes BIGINT,
    changed_at TIMESTAMPTZ,
    state VARCHAR,
    settings VARCHAR
);
COMMENT ON TABLE seen_file IS 'One row is a file of the inbox as it was last looked at; key path.';
COMMENT ON COLUMN seen_file.path IS 'where it lies or lay.';
COMMENT ON COLUMN seen_file.bytes IS 'its size then.';
COMMENT ON COLUMN seen_file.changed_at IS 'its last change then (UTC).';
COMMENT ON COLUMN seen_file.state IS 'what became of it: loaded, known, refused or held.';
COMMENT ON COLUMN seen_file.settings IS 'fingerprint of the plant.toml it was read with; a refused file is tried again under another.';
