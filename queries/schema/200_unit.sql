-- unit: one row is a vehicle; key vin; made from unit_sent, events, runs and corrections
CREATE TABLE unit (
    vin VARCHAR,
    build_seq BIGINT,
    model VARCHAR,
    line VARCHAR,
    kind VARCHAR,
    line_off_at TIMESTAMPTZ,
    in_schedule BOOLEAN,
    line_date DATE,
    line_shift VARCHAR,
    line_state VARCHAR,
    earliest_at TIMESTAMPTZ,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE unit IS 'One row is a vehicle; key vin; made from unit_sent, events, runs and corrections.';
COMMENT ON COLUMN unit.vin IS 'vehicle identification number.';
COMMENT ON COLUMN unit.build_seq IS 'place in the build order, null where unknown.';
COMMENT ON COLUMN unit.model IS 'model, null where unknown.';
COMMENT ON COLUMN unit.line IS 'production line, null where unknown.';
COMMENT ON COLUMN unit.kind IS 'production, trial, reference or training (rule 13).';
COMMENT ON COLUMN unit.line_off_at IS 'when the unit left the line (UTC): the units feed, else its first event line_off; null where neither told (rule 11).';
COMMENT ON COLUMN unit.in_schedule IS 'false where only a test, repair or event told of the unit (rule 17).';
COMMENT ON COLUMN unit.line_date IS 'production date of line_off_at, null where that is.';
COMMENT ON COLUMN unit.line_shift IS 'shift of line_off_at, null between shifts.';
COMMENT ON COLUMN unit.line_state IS 'went_through, failed_one or undecided (rule 11).';
COMMENT ON COLUMN unit.earliest_at IS 'earliest time anything is known of the unit (UTC); a bound for look-ups.';
COMMENT ON COLUMN unit.file_id IS 'file of the newest units row, null where not in the schedule.';
COMMENT ON COLUMN unit.file_row IS 'row in that file.';
