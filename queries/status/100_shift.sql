-- shift: the shift that is asked about, and how far the data reach
-- One row, none where the calendar has no such shift; times are UTC. Rules 3 and 11.
-- Reads: shift_window, plant_setting, as_of.
SELECT
    shift_window.production_date,
    shift_window.shift,
    shift_window.crew,
    shift_window.cancelled,
    shift_window.starts_at,
    shift_window.ends_at,
    shift_window.ends_at + CAST(plant_setting.settle_hours * 3600 AS BIGINT) * INTERVAL '1' SECOND AS settles_at,
    plant_setting.timezone,
    as_of.as_of AS data_clock
FROM shift_window
CROSS JOIN plant_setting
CROSS JOIN as_of
WHERE
    shift_window.production_date = $production_date
    AND shift_window.shift = $shift;
