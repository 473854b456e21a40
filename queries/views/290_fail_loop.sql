-- fail_loop: each run of fails with the pass that ended it
-- One row is a loop of a production unit in a test: its first counted fail since the last counted pass, and the next
-- counted pass. Rules 7 and 15.
-- Reads: run_of_unit, run.
CREATE OR REPLACE VIEW fail_loop AS
WITH ended AS (
    SELECT
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew,
        run_of_unit.vin,
        run_of_unit.test,
        run_of_unit.run_id,
        run_of_unit."at" AS passed_at,
        run_of_unit.attempt,
        run_of_unit.earliest_at,
        coalesce(max(earlier.attempt) FILTER (WHERE earlier.result = 'pass'), 0) AS passed_attempt
    FROM run_of_unit
    INNER JOIN run AS earlier
        ON earlier.vin = run_of_unit.vin
        AND earlier.test = run_of_unit.test
        AND earlier.attempt < run_of_unit.attempt
        -- no run of a unit is earlier than what is first known of it
        AND earlier."at" >= coalesce(run_of_unit.earliest_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ))
        AND earlier."at" <= run_of_unit."at"
    WHERE run_of_unit.kind = 'production' AND run_of_unit.attempt > 1 AND run_of_unit.result = 'pass'
    GROUP BY
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew,
        run_of_unit.vin,
        run_of_unit.test,
        run_of_unit.run_id,
        run_of_unit."at",
        run_of_unit.attempt,
        run_of_unit.earliest_at
)

SELECT
    ended.production_date,
    ended.shift,
    ended.crew,
    ended.vin,
    ended.test,
    ended.run_id,
    failed."at" AS failed_at,
    ended.passed_at,
    ended.attempt - 1 - ended.passed_attempt AS fails
FROM ended
INNER JOIN run AS failed
    ON failed.vin = ended.vin
    AND failed.test = ended.test
    AND failed.attempt = ended.passed_attempt + 1
    AND failed."at" >= coalesce(ended.earliest_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ))
    AND failed."at" <= ended.passed_at
WHERE ended.passed_attempt < ended.attempt - 1;

COMMENT ON VIEW fail_loop IS
    'One row is a loop of a production unit in a test, from its first counted fail since the last counted pass to the next counted pass (rules 7 and 15); key run_id.';
COMMENT ON COLUMN fail_loop.production_date IS 'day of the shift of the pass (rules 3 and 15).';
COMMENT ON COLUMN fail_loop.shift IS 'shift of the pass, null between shifts.';
COMMENT ON COLUMN fail_loop.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN fail_loop.vin IS 'the unit.';
COMMENT ON COLUMN fail_loop.test IS 'the test.';
COMMENT ON COLUMN fail_loop.run_id IS 'the run that passed.';
COMMENT ON COLUMN fail_loop.failed_at IS 'the first counted fail since the last counted pass (UTC).';
COMMENT ON COLUMN fail_loop.passed_at IS 'the counted pass (UTC).';
COMMENT ON COLUMN fail_loop.fails IS 'counted fails of the loop.';
