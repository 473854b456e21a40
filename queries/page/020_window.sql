-- window: when a shift began and ended, and who worked it
-- One row where the calendar has the shift, else none; times are plant-local. Rule 3.
-- Reads: shift_window, plant_setting.
SELECT
    shift_window.crew,
    shift_window.starts_at AT TIME ZONE plant_setting.timezone AS starts_at,
    shift_window.ends_at AT TIME ZONE plant_setting.timezone AS ends_at,
    shift_window.cancelled
FROM shift_window
CROSS JOIN plant_setting
WHERE
    shift_window.production_date = $production_date
    AND shift_window.shift = $shift;
