-- usual_presented: how many units were presented to each test in the shifts of the same name and weekday before
-- One row is a test x one of the last 8 such shifts in which it had a run of a production unit (rule 9).
-- Reads: shift_window, run, unit.
WITH like_it AS (
    SELECT shift_window.production_date, shift_window.shift
    FROM shift_window
    WHERE
        shift_window.shift = $shift
        AND shift_window.production_date < $production_date
        AND date_diff('day', shift_window.production_date, CAST($production_date AS DATE)) % 7 = 0
        AND NOT shift_window.cancelled
    ORDER BY shift_window.production_date DESC
    LIMIT 8
)

SELECT
    run.test,
    run.production_date,
    count(DISTINCT run.vin) AS presented
FROM run
INNER JOIN like_it
    ON like_it.production_date = run.production_date
    AND like_it.shift = run.shift
INNER JOIN unit ON unit.vin = run.vin
WHERE unit.kind = 'production'
GROUP BY run.test, run.production_date
ORDER BY run.test, run.production_date;
