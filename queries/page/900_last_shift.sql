-- The last shift that ended by the data clock
-- One row, none where no shift has ended. Reads: shift_window, as_of.
SELECT w.production_date, w.shift
FROM shift_window AS w
CROSS JOIN as_of AS a
WHERE NOT w.cancelled AND w.ends_at <= a.as_of
ORDER BY w.ends_at DESC, w.starts_at DESC
LIMIT 1;
