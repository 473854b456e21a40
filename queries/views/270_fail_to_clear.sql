-- fail_to_clear: from a fail to the pass that ended it, and whether anything was repaired between
-- One row is a loop of a production unit in a test: its first counted fail since the last counted pass, and the next
-- counted pass. Rule 15; a repair belongs to the loop's test where it names one.
-- Reads: run_of_unit, run, repair, classed_finding.
CREATE OR REPLACE VIEW fail_to_clear AS
WITH passing AS (
    SELECT
        run_of_unit.vin,
        run_of_unit.test,
        run_of_unit.run_id,
        run_of_unit."at" AS passed_at,
        run_of_unit.attempt,
        run_of_unit.production_date,
        run_of_unit.shift,
        run_of_unit.crew
    FROM run_of_unit
    WHERE run_of_unit.kind = 'production' AND run_of_unit.attempt > 1 AND run_of_unit.result = 'pass'
),

started AS (
    SELECT
        passing.run_id,
        coalesce(max(earlier.attempt) FILTER (WHERE earlier.result = 'pass'), 0) AS passed_attempt
    FROM passing
    INNER JOIN run AS earlier ON earlier.vin = passing.vin AND earlier.test = passing.test
    WHERE earlier.attempt < passing.attempt
    GROUP BY passing.run_id
),

failing AS (
    SELECT
        passing.run_id AS passed_run_id,
        failed.run_id,
        failed."at" AS failed_at
    FROM passing
    INNER JOIN started ON started.run_id = passing.run_id
    INNER JOIN run AS failed ON failed.vin = passing.vin AND failed.test = passing.test
    WHERE failed.attempt < passing.attempt AND failed.attempt > started.passed_attempt
),

loop AS (
    SELECT
        passing.vin,
        passing.test,
        passing.run_id,
        passing.passed_at,
        passing.production_date,
        passing.shift,
        passing.crew,
        min(failing.failed_at) AS failed_at,
        count(*) AS fails
    FROM passing
    INNER JOIN failing ON failing.passed_run_id = passing.run_id
    GROUP BY
        passing.vin,
        passing.test,
        passing.run_id,
        passing.passed_at,
        passing.production_date,
        passing.shift,
        passing.crew
),

mended AS (
    SELECT
        loop.run_id,
        count(*) AS repair_rows,
        max(coalesce(repair.ended_at, repair.started_at, repair.entered_at))
            FILTER (WHERE repair."class" IS DISTINCT FROM 'none') AS repaired_at
    FROM loop
    INNER JOIN repair
        ON repair.vin = loop.vin
        AND coalesce(repair.test, loop.test) = loop.test
        AND coalesce(repair.ended_at, repair.started_at, repair.entered_at) >= loop.failed_at
        AND coalesce(repair.ended_at, repair.started_at, repair.entered_at) <= loop.passed_at
    GROUP BY loop.run_id
),

grave AS (
    SELECT DISTINCT failing.passed_run_id AS run_id
    FROM failing
    INNER JOIN classed_finding ON classed_finding.run_id = failing.run_id
    WHERE classed_finding.safety_related AND classed_finding.counts_as IN ('defect', 'retest', 'masked', 'repeat')
),

judged AS (
    SELECT
        loop.vin,
        loop.test,
        loop.run_id,
        loop.failed_at,
        mended.repaired_at,
        loop.passed_at,
        loop.fails,
        loop.production_date,
        loop.shift,
        loop.crew,
        mended.repaired_at IS NOT NULL AS repaired,
        grave.run_id IS NOT NULL AS safety_related,
        CAST(count(mended.repair_rows) OVER (PARTITION BY loop.production_date, loop.shift) AS DOUBLE)
        / count(*) OVER (PARTITION BY loop.production_date, loop.shift) AS recorded_share
    FROM loop
    LEFT JOIN mended ON mended.run_id = loop.run_id
    LEFT JOIN grave ON grave.run_id = loop.run_id
)

SELECT
    judged.production_date,
    judged.shift,
    judged.crew,
    judged.vin,
    judged.test,
    judged.run_id,
    judged.failed_at,
    judged.repaired_at,
    judged.passed_at,
    date_diff('second', date_trunc('second', judged.failed_at), date_trunc('second', judged.passed_at)) / 60e0 AS minutes,
    judged.fails,
    judged.repaired,
    CASE WHEN judged.recorded_share >= 0.8e0 AND NOT judged.safety_related THEN NOT judged.repaired END
        AS fixed_without_repair,
    judged.safety_related,
    judged.recorded_share
FROM judged;

COMMENT ON VIEW fail_to_clear IS
    'One row is a loop of a production unit in a test, from its first counted fail to the counted pass that ended it (rule 15); key run_id.';
COMMENT ON COLUMN fail_to_clear.production_date IS 'day of the shift of the pass (rules 3 and 15).';
COMMENT ON COLUMN fail_to_clear.shift IS 'shift of the pass, null between shifts.';
COMMENT ON COLUMN fail_to_clear.crew IS 'crew that worked it, null where unknown.';
COMMENT ON COLUMN fail_to_clear.vin IS 'the unit.';
COMMENT ON COLUMN fail_to_clear.test IS 'the test.';
COMMENT ON COLUMN fail_to_clear.run_id IS 'the run that passed.';
COMMENT ON COLUMN fail_to_clear.failed_at IS 'the first counted fail since the last counted pass (UTC).';
COMMENT ON COLUMN fail_to_clear.repaired_at IS
    'the last repair between of class other than none (UTC): its end, else its start, else its entry; null where there was none.';
COMMENT ON COLUMN fail_to_clear.passed_at IS 'the counted pass (UTC).';
COMMENT ON COLUMN fail_to_clear.minutes IS 'minutes from failed_at to passed_at, whole seconds.';
COMMENT ON COLUMN fail_to_clear.fails IS 'counted fails of the loop.';
COMMENT ON COLUMN fail_to_clear.repaired IS 'true where a repair of class other than none lies between.';
COMMENT ON COLUMN fail_to_clear.fixed_without_repair IS
    'true where none does: the test is suspect (rule 15); null where under 80 % of the shift''s loops have a repair row, and where a finding is safety-related.';
COMMENT ON COLUMN fail_to_clear.safety_related IS
    'true where a finding of its fails is safety-related: that unit needs a release (rule 15).';
COMMENT ON COLUMN fail_to_clear.recorded_share IS
    'share of the shift''s loops with any repair row, 0 to 1 (rule 15).';
