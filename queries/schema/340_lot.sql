-- lot: one row is a lot of a part, by sequence or time range; key part, lot, from_build_seq, from_at
CREATE TABLE lot (
    part VARCHAR,
    lot VARCHAR,
    from_build_seq BIGINT,
    to_build_seq BIGINT,
    from_at TIMESTAMPTZ,
    to_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE lot IS 'One row is a lot of a part, by sequence or time range; key part, lot, from_build_seq, from_at.';
COMMENT ON COLUMN lot.part IS 'the part.';
COMMENT ON COLUMN lot.lot IS 'the lot.';
COMMENT ON COLUMN lot.from_build_seq IS 'first unit.';
COMMENT ON COLUMN lot.to_build_seq IS 'last unit.';
COMMENT ON COLUMN lot.from_at IS 'from when (UTC).';
COMMENT ON COLUMN lot.to_at IS 'until when (UTC).';
COMMENT ON COLUMN lot.file_id IS 'the file.';
COMMENT ON COLUMN lot.file_row IS 'row in that file.';
