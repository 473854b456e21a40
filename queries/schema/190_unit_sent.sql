-- unit_sent: one row is what a row of the units feed told of a unit; key vin and all it told
CREATE TABLE unit_sent (
    vin VARCHAR USING COMPRESSION zstd,
    build_seq BIGINT,
    model VARCHAR,
    line VARCHAR,
    kind VARCHAR,
    line_off_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE unit_sent IS 'One row is what a row of the units feed told of a unit; key vin and all it told.';
COMMENT ON COLUMN unit_sent.vin IS 'vehicle identification number as sent.';
COMMENT ON COLUMN unit_sent.build_seq IS 'place in the build order.';
COMMENT ON COLUMN unit_sent.model IS 'model.';
COMMENT ON COLUMN unit_sent.line IS 'production line.';
COMMENT ON COLUMN unit_sent.kind IS 'production, trial, reference or training.';
COMMENT ON COLUMN unit_sent.line_off_at IS 'when the unit left the line (UTC).';
COMMENT ON COLUMN unit_sent.file_id IS 'the file.';
COMMENT ON COLUMN unit_sent.file_row IS 'row in that file.';
