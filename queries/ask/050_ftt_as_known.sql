-- ftt_as_known: first-time-through of each shift and test as it was known at a moment, and as it is known now
-- One row is a shift x test. Known then is what had been loaded by then: of each run the version ranked highest among the
-- files loaded by then, losing versions included (rule 1). A version that lost counts by its own result, unless the run is
-- void for what the bench measured. Rules 7, 9 and 13.
-- Set: known_at = 2026-09-15T06:05:00+02:00, first_date = null
-- Reads: run, superseded.run, source_file, unit, ftt_by_shift.
WITH version AS (
    SELECT
        run.run_id,
        run.file_id,
        run.revision,
        run.vin,
        run.test,
        run.started_at,
        run."at",
        run.result,
        run.counts,
        run.production_date,
        run.shift
    FROM run
    UNION ALL BY NAME
    SELECT
        lost.run_id,
        lost.file_id,
        lost.revision,
        won.vin,
        won.test,
        won.started_at,
        won."at",
        lost.result,
        lost.result IN ('pass', 'fail')
        AND coalesce(won.void_reason NOT IN ('suspect_double', 'equipment', 'missing', 'weak', 'harsh'), true) AS counts,
        won.production_date,
        won.shift
    FROM superseded.run AS lost
    INNER JOIN run AS won ON won.run_id = lost.run_id
),

known AS (
    SELECT version.*
    FROM version
    INNER JOIN source_file ON source_file.file_id = version.file_id
    INNER JOIN unit ON unit.vin = version.vin
    WHERE source_file.loaded_at <= CAST($known_at AS TIMESTAMPTZ) AND unit.kind = 'production'
    QUALIFY
        row_number() OVER (
            PARTITION BY version.run_id
            ORDER BY coalesce(version.revision, 0) DESC, source_file.made_at DESC, source_file.sha256 DESC
        ) = 1
),

attempt_one AS (
    SELECT known.production_date, known.shift, known.test, known.result
    FROM known
    WHERE known.counts
    QUALIFY
        row_number() OVER (PARTITION BY known.vin, known.test ORDER BY known."at", known.started_at, known.run_id) = 1
),

then_known AS (
    SELECT
        attempt_one.production_date,
        attempt_one.shift,
        attempt_one.test,
        count(*) AS tested,
        count_if(attempt_one.result = 'pass') AS passed_first
    FROM attempt_one
    GROUP BY attempt_one.production_date, attempt_one.shift, attempt_one.test
)

SELECT
    now_known.production_date,
    now_known.shift,
    now_known.test,
    coalesce(then_known.tested, 0) AS tested_then,
    then_known.passed_first / then_known.tested AS ftt_then,
    now_known.tested AS tested_now,
    now_known.ftt AS ftt_now
FROM ftt_by_shift AS now_known
LEFT JOIN then_known
    ON then_known.production_date = now_known.production_date
    AND then_known.shift IS NOT DISTINCT FROM now_known.shift
    AND then_known.test = now_known.test
WHERE CAST($first_date AS DATE) IS NULL OR now_known.production_date >= CAST($first_date AS DATE)
ORDER BY now_known.production_date, now_known.shift, now_known.test;
