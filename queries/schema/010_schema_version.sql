-- schema_version: one row is a step of the schema that the store has taken
CREATE TABLE schema_version (
    version BIGINT,
    made_at TIMESTAMPTZ,
    tool VARCHAR,
    views VARCHAR
);
COMMENT ON TABLE schema_version IS 'One row is a step of the schema that the store has taken.';
COMMENT ON COLUMN schema_version.version IS 'number of the schema.';
COMMENT ON COLUMN schema_version.made_at IS 'when the step was taken, by the wall clock, UTC.';
COMMENT ON COLUMN schema_version.tool IS 'version of the tool that took it.';
COMMENT ON COLUMN schema_version.views IS 'fingerprint of the views installed with it, lower-case hexadecimal.';
