-- fail_to_clear: from a fail to the pass that ended it, and whether anything was repaired between
-- One row is a loop of a production unit in a test: its first counted fail since the last counted pass, and the next
-- counted pass. Rule 15; a repair belongs to the loop's test where it names one.
-- Reads: fail_loop, repair, classed_finding.
CREATE OR REPLACE VIEW fail_to_clear AS
WITH mended AS (
    SELECT
        fail_loop.production_date,
        fail_loop.run_id,
        count(*) AS repair_rows,
        max(coalesce(repair.ended_at, repair.started_at, repair.entered_at))
            FILTER (WHERE repair."class" IS DISTINCT FROM 'none') AS repaired_at
    FROM fail_loop
    INNER JOIN repair
        ON repair.vin = fail_loop.vin
        AND coalesce(repair.test, fail_loop.test) = fail_loop.test
        AND coalesce(repair.ended_at, repair.started_at, repair.entered_at) >= fail_loop.failed_at
        AND coalesce(repair.ended_at, repair.started_at, repair.entered_at) <= fail_loop.passed_at
    GROUP BY fail_loop.production_date, fail_loop.run_id
),

grave AS (
    SELECT DISTINCT fail_loop.production_date, fail_loop.run_id
    FROM fail_loop
    INNER JOIN classed_finding
        ON classed_finding.vin = fail_loop.vin
        AND classed_finding.test = fail_loop.test
        AND classed_finding."at" >= fail_loop.failed_at
        AND classed_finding."at" <= fail_loop.passed_at
        AND classed_finding.run_id <> fail_loop.run_id
    WHERE classed_finding.safety_related AND classed_finding.counts_as IN ('defect', 'retest', 'masked', 'repeat')
),

judged AS (
    SELECT
        fail_loop.production_date,
        fail_loop.shift,
        fail_loop.crew,
        fail_loop.vin,
        fail_loop.test,
        fail_loop.run_id,
        fail_loop.failed_at,
        mended.repaired_at,
        fail_loop.passed_at,
        fail_loop.fails,
        mended.repaired_at IS NOT NULL AS repaired,
        grave.run_id IS NOT NULL AS safety_related,
        CAST(count(mended.repair_rows) OVER (PARTITION BY fail_loop.production_date, fail_loop.shift) AS DOUBLE)
        / count(*) OVER (PARTITION BY fail_loop.production_date, fail_loop.shift) AS recorded_share
    FROM fail_loop
    LEFT JOIN mended
        ON mended.production_date = fail_loop.production_date
        AND mended.run_id = fail_loop.run_id
    LEFT JOIN grave
        ON grave.production_date = fail_loop.production_date
        AND grave.run_id = fail_loop.run_id
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
