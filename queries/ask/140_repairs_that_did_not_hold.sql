-- repairs_that_did_not_hold: after which repair the same fault was found again
-- One row is a test x code x action of a repair: how many units were repaired so, and on how many the next counted run of
-- that test found the same code again. Rules 8 and 15.
-- Set: least = 5
-- Reads: repair, run, finding, unit.
WITH repaired AS (
    SELECT
        repair.vin,
        repair.test,
        repair.code,
        repair.action,
        repair.class,
        max(coalesce(repair.ended_at, repair.started_at, repair.entered_at)) AS repaired_at
    FROM repair
    INNER JOIN unit ON unit.vin = repair.vin
    WHERE unit.kind = 'production' AND repair.class <> 'none' AND repair.code IS NOT NULL
    GROUP BY repair.vin, repair.test, repair.code, repair.action, repair.class
),

next_run AS (
    SELECT repaired.*, run.run_id
    FROM repaired
    INNER JOIN run ON run.vin = repaired.vin AND run.test = repaired.test AND run.counts AND run.started_at >= repaired.repaired_at
    QUALIFY
        row_number() OVER (
            PARTITION BY repaired.vin, repaired.test, repaired.code, repaired.action, repaired.class
            ORDER BY run."at", run.started_at, run.run_id
        ) = 1
)

SELECT
    next_run.test,
    next_run.code,
    next_run.action,
    next_run.class,
    count(*) AS retested_units,
    count_if(
        EXISTS (
            SELECT 1
            FROM finding
            WHERE finding.run_id = next_run.run_id AND finding.code = next_run.code AND finding.counts_as IN ('repeat', 'retest')
        )
    ) AS found_again,
    found_again / retested_units AS share_again
FROM next_run
GROUP BY next_run.test, next_run.code, next_run.action, next_run.class
HAVING count(*) >= $least
ORDER BY share_again DESC, retested_units DESC, next_run.test, next_run.code, next_run.action;
