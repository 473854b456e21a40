-- unit: all production units that may be suspect, and what they stand at in a test
-- One row is a production unit known in the time asked for, by when it left the line, else by the earliest time told
-- of it. last_at, station and bay are of its latest counted run in the test (rule 7), unchecked where that is a pass of
-- a bay that failed its check (rule 13); voids are its runs that do not count. Times are UTC.
-- Parameters: test, from_at, to_at (UTC). Reads: unit, unit_status, run, unchecked.
WITH known AS (
    SELECT
        unit.vin,
        unit.build_seq,
        unit.model,
        unit.line,
        unit.line_off_at
    FROM unit
    WHERE
        unit.kind = 'production'
        AND coalesce(unit.line_off_at, unit.earliest_at) >= CAST($from_at AS TIMESTAMPTZ)
        AND coalesce(unit.line_off_at, unit.earliest_at) < CAST($to_at AS TIMESTAMPTZ)
),

void AS (
    SELECT
        run.vin,
        count(*) AS voids,
        max_by(run.void_reason, (run."at", run.run_id)) AS void_reason
    FROM run
    WHERE run.test = $test AND NOT run.counts
    GROUP BY run.vin
)

SELECT
    known.vin,
    known.build_seq,
    known.model,
    known.line,
    known.line_off_at,
    coalesce(unit_status.attempts, 0) AS attempts,
    unit_status.last_result,
    unit_status.status,
    last_run."at" AS last_at,
    last_run.station,
    last_run.bay,
    unchecked.run_id IS NOT NULL AS unchecked,
    coalesce(void.voids, 0) AS voids,
    void.void_reason
FROM known
LEFT JOIN unit_status ON unit_status.vin = known.vin AND unit_status.test = $test
LEFT JOIN run AS last_run ON last_run.run_id = unit_status.last_run_id
LEFT JOIN unchecked ON unchecked.run_id = unit_status.last_run_id
LEFT JOIN void ON void.vin = known.vin
ORDER BY known.build_seq NULLS LAST, known.line_off_at NULLS LAST, known.vin;
