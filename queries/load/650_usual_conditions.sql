-- Median of each condition over its last 20 shifts with runs
-- One row a test and condition. Parameters: first_run_id, since (bounds: 60 days before the data clock).
-- Reads: condition_limit, reading, run.
WITH shift_of_test AS (
    SELECT DISTINCT test, production_date, shift
    FROM run
    WHERE run_id >= $first_run_id AND production_date >= $since AND shift IS NOT NULL
),

last_shift AS (
    SELECT s.test, s.production_date, s.shift
    FROM shift_of_test AS s
    INNER JOIN shift_window AS w ON s.production_date = w.production_date AND s.shift = w.shift
    QUALIFY row_number() OVER (PARTITION BY s.test ORDER BY w.starts_at DESC) <= 20
)

SELECT r.test, t.name, median(t.value) AS median
FROM run AS r
SEMI JOIN last_shift AS s ON r.test = s.test AND r.production_date = s.production_date AND r.shift = s.shift
INNER JOIN reading AS t ON r.run_id = t.run_id
WHERE
    r.run_id >= $first_run_id AND t.run_id >= $first_run_id
    AND t.name IN (SELECT name FROM condition_limit)
GROUP BY r.test, t.name;
