-- repair: one row is a repair; key repair_id
CREATE TABLE repair (
    repair_id VARCHAR,
    vin VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    started_at TIMESTAMPTZ,
    ended_at TIMESTAMPTZ,
    action VARCHAR,
    "class" VARCHAR,
    owner_area VARCHAR,
    place VARCHAR,
    part VARCHAR,
    lot VARCHAR,
    entered_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE repair IS 'One row is a repair; key repair_id.';
COMMENT ON COLUMN repair.repair_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN repair.vin IS 'the unit.';
COMMENT ON COLUMN repair.test IS 'the test whose finding it mends, null where unknown.';
COMMENT ON COLUMN repair.code IS 'the code it mends.';
COMMENT ON COLUMN repair.zone IS 'where.';
COMMENT ON COLUMN repair.started_at IS 'start (UTC).';
COMMENT ON COLUMN repair.ended_at IS 'end (UTC), null while open.';
COMMENT ON COLUMN repair.action IS 'what was done.';
COMMENT ON COLUMN repair."class" IS 'repaired, replaced, adjusted or none (rule 15).';
COMMENT ON COLUMN repair.owner_area IS 'area that owns the cause.';
COMMENT ON COLUMN repair.place IS 'where it was done.';
COMMENT ON COLUMN repair.part IS 'part that was changed.';
COMMENT ON COLUMN repair.lot IS 'lot of that part.';
COMMENT ON COLUMN repair.entered_at IS 'when it was entered (UTC).';
COMMENT ON COLUMN repair.file_id IS 'the file.';
COMMENT ON COLUMN repair.file_row IS 'row in that file.';
