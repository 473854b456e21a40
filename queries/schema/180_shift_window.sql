-- shift_window: one row is one shift of the calendar; key production_date, shift (rule 3)
CREATE TABLE shift_window (
    production_date DATE,
    shift VARCHAR,
    crew VARCHAR,
    starts_at TIMESTAMPTZ,
    ends_at TIMESTAMPTZ,
    cancelled BOOLEAN,
    file_id BIGINT,
    file_row BIGINT
);
COMMENT ON TABLE shift_window IS 'One row is one shift of the calendar; key production_date, shift (rule 3).';
COMMENT ON COLUMN shift_window.production_date IS 'the day the shift belongs to.';
COMMENT ON COLUMN shift_window.shift IS 'name of the shift.';
COMMENT ON COLUMN shift_window.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN shift_window.starts_at IS 'start, inclusive (UTC).';
COMMENT ON COLUMN shift_window.ends_at IS 'end, exclusive (UTC).';
COMMENT ON COLUMN shift_window.cancelled IS 'true where the shift was not worked; its window then holds no run.';
COMMENT ON COLUMN shift_window.file_id IS 'file of the feed shifts, null where plant.toml made the row.';
COMMENT ON COLUMN shift_window.file_row IS 'row in that file.';
