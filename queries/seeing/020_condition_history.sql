-- condition_history: each condition with a limit, shift by shift and bay by bay
-- One row is a bay x condition x shift with at least two readings, of runs that ended from $from_at up to $until (UTC);
-- limits are those valid at the end of the span (rule 4).
-- Reads: run, reading, condition_limit.
WITH bound AS (
    SELECT
        condition_limit.test,
        condition_limit.name,
        condition_limit.lower,
        condition_limit.upper,
        condition_limit.measure_unit
    FROM condition_limit
    WHERE
        (condition_limit.lower IS NOT NULL OR condition_limit.upper IS NOT NULL)
        AND condition_limit.valid_from < CAST($until AS TIMESTAMPTZ)
        AND (condition_limit.valid_to IS NULL OR condition_limit.valid_to >= CAST($until AS TIMESTAMPTZ))
)

SELECT
    run.test,
    run.station,
    run.bay,
    bound.name,
    bound.measure_unit,
    bound.lower,
    bound.upper,
    run.production_date,
    run.shift,
    count(*) AS readings,
    avg(reading."value") AS mean,
    stddev_samp(reading."value") AS sigma
FROM run
INNER JOIN reading ON reading.run_id = run.run_id
INNER JOIN bound ON bound.test = run.test AND bound.name = reading.name
WHERE
    run."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND run."at" < CAST($until AS TIMESTAMPTZ)
    AND run.result IN ('pass', 'fail')
    AND isfinite(reading."value")
GROUP BY ALL
HAVING count(*) > 1
ORDER BY run.test, run.station, run.bay, bound.name, run.production_date, run.shift;
