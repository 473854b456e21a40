-- unit_key: one row is another name of a unit, for a while; key kind, value, valid_from
CREATE TABLE unit_key (
    kind VARCHAR,
    "value" VARCHAR,
    vin VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE unit_key IS 'One row is another name of a unit, for a while; key kind, value, valid_from.';
COMMENT ON COLUMN unit_key.kind IS 'what kind of name: skid, body number.';
COMMENT ON COLUMN unit_key."value" IS 'the name.';
COMMENT ON COLUMN unit_key.vin IS 'the unit it names.';
COMMENT ON COLUMN unit_key.valid_from IS 'from when (UTC), null for ever before.';
COMMENT ON COLUMN unit_key.valid_to IS 'until when, exclusive (UTC), null for ever after.';
COMMENT ON COLUMN unit_key.file_id IS 'the file.';
COMMENT ON COLUMN unit_key.file_row IS 'row in that file.';
