-- condition_by_bay: how a condition of the test ran in each bay, and how near it came to its limits
-- One row is a shift x bay: lowest, median and highest value over its runs, and how many runs lay outside the limits that
-- held then. Drift shows here before a limit is passed. Rule 4.
-- Set: test = water, name = pressure_kpa, first_date = null
-- Reads: reading, run, condition_limit.
WITH limited AS (
    SELECT
        run.production_date,
        run.shift,
        run.station,
        run.bay,
        run.run_id,
        reading.value,
        max_by(condition_limit.lower, condition_limit.valid_from) AS lower_limit,
        max_by(condition_limit.upper, condition_limit.valid_from) AS upper_limit,
        max(reading.measure_unit) AS measure_unit
    FROM reading
    INNER JOIN run ON run.run_id = reading.run_id
    LEFT JOIN condition_limit
        ON condition_limit.test = run.test
        AND condition_limit.name = reading.name
        AND condition_limit.valid_from <= run."at"
    WHERE
        run.test = $test
        AND reading.name = $name
        AND run.void_reason IS DISTINCT FROM 'suspect_double'
        AND (CAST($first_date AS DATE) IS NULL OR run.production_date >= CAST($first_date AS DATE))
    GROUP BY run.production_date, run.shift, run.station, run.bay, run.run_id, reading.sample, reading.value
)

SELECT
    limited.production_date,
    limited.shift,
    limited.station,
    limited.bay,
    count(DISTINCT limited.run_id) AS runs,
    min(limited.value) AS lowest,
    median(limited.value) AS median,
    max(limited.value) AS highest,
    min(limited.lower_limit) AS lower_limit,
    max(limited.upper_limit) AS upper_limit,
    max(limited.measure_unit) AS measure_unit,
    count(DISTINCT limited.run_id) FILTER (WHERE limited.value < limited.lower_limit) AS under,
    count(DISTINCT limited.run_id) FILTER (WHERE limited.value > limited.upper_limit) AS over
FROM limited
GROUP BY limited.production_date, limited.shift, limited.station, limited.bay
ORDER BY limited.production_date, limited.shift, limited.station, limited.bay;
