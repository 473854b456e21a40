-- span: the plant's zone, its data clock, and one shift of its calendar
-- One row; starts_at and ends_at are null where the calendar has no such shift. Times are UTC.
-- Parameters: production_date, shift. Reads: plant_setting, as_of, shift_window.
SELECT
    plant_setting.timezone,
    as_of.as_of AS data_clock,
    shift_window.starts_at,
    shift_window.ends_at
FROM plant_setting
CROSS JOIN as_of
LEFT JOIN shift_window
    ON shift_window.production_date = $production_date
    AND shift_window.shift = $shift;
