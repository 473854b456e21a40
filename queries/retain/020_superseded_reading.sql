-- Losing versions of old readings
-- Parameter: before_run_id. Writes: superseded.reading.
DELETE FROM superseded.reading
WHERE run_id < $before_run_id;
