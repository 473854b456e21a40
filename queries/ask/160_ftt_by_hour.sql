-- ftt_by_hour: first-time-through by hour of the shift, to see a bad start or a tired end
-- One row is a test x hour since the start of the shift, over the dates; per_100 counts defects. Rules 3, 8 and 9.
-- Set: test = null, shift = null, first_date = null
-- Reads: first_run, shift_window.
SELECT
    first_run.test,
    first_run.shift,
    CAST(floor(date_diff('second', shift_window.starts_at, first_run."at") / 3600) AS BIGINT) AS hour,
    count(*) AS tested,
    sum(first_run.passed) AS passed_first,
    sum(first_run.passed) / count(*) AS ftt,
    100 * sum(first_run.defects) / count(*) AS per_100
FROM first_run
INNER JOIN shift_window
    ON shift_window.production_date = first_run.production_date AND shift_window.shift = first_run.shift
WHERE
    (CAST($test AS VARCHAR) IS NULL OR first_run.test = $test)
    AND (CAST($shift AS VARCHAR) IS NULL OR first_run.shift = $shift)
    AND (CAST($first_date AS DATE) IS NULL OR first_run.production_date >= CAST($first_date AS DATE))
GROUP BY first_run.test, first_run.shift, hour
ORDER BY first_run.test, first_run.shift, hour;
