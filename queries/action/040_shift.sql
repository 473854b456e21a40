-- shift: the shifts of the calendar in the order of time
-- One row is a shift that was not cancelled; starts_at and ends_at are UTC. Reads: shift_window.
SELECT
    shift_window.production_date,
    shift_window.shift,
    shift_window.starts_at,
    shift_window.ends_at
FROM shift_window
WHERE NOT shift_window.cancelled
ORDER BY shift_window.starts_at;
