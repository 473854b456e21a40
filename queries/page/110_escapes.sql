-- escapes: the escapes known at the data clock, up to a shift's end
-- One row is a unit x test (rule 14); event_at is plant-local; in_shift: it passed the event within the shift.
-- Reads: escape, shift_window, plant_setting.
WITH present AS (
    SELECT shift_window.starts_at, shift_window.ends_at
    FROM shift_window
    WHERE
        shift_window.production_date = $production_date
        AND shift_window.shift = $shift
)

SELECT
    escape.vin,
    escape.test,
    escape.reason,
    escape.event,
    escape.event_at AT TIME ZONE plant_setting.timezone AS event_at,
    coalesce(escape.event_at >= present.starts_at, false) AS in_shift
FROM escape
CROSS JOIN plant_setting
LEFT JOIN present ON true
WHERE present.ends_at IS NULL OR escape.event_at < present.ends_at
ORDER BY escape.vin, escape.test;
