-- event: one row is where a unit is, or what was decided of it; key event_id
CREATE TABLE event (
    event_id VARCHAR,
    vin VARCHAR,
    "at" TIMESTAMPTZ,
    kind VARCHAR,
    place VARCHAR,
    reference VARCHAR,
    note VARCHAR,
    entered_by VARCHAR,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE event IS 'One row is where a unit is, or what was decided of it; key event_id.';
COMMENT ON COLUMN event.event_id IS 'id as sent, else 60 bits of md5 over the row, hexadecimal.';
COMMENT ON COLUMN event.vin IS 'the unit.';
COMMENT ON COLUMN event."at" IS 'when (UTC).';
COMMENT ON COLUMN event.kind IS 'line_off, move, hold, unhold, scrap, divert, rework, signed_off, release, ship or return.';
COMMENT ON COLUMN event.place IS 'where.';
COMMENT ON COLUMN event.reference IS 'number of the paper behind it.';
COMMENT ON COLUMN event.note IS 'remark.';
COMMENT ON COLUMN event.entered_by IS 'keyed pseudonym of who entered it (rule 18).';
COMMENT ON COLUMN event.file_id IS 'the file.';
COMMENT ON COLUMN event.file_row IS 'row in that file.';
