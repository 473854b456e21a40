-- The shifts of some days
-- One row a shift. Parameters: since, until. Reads: shift_window.
SELECT shift_window.production_date, shift_window.shift, shift_window.ends_at, shift_window.cancelled
FROM shift_window
WHERE shift_window.production_date BETWEEN $since AND $until
ORDER BY shift_window.ends_at;
