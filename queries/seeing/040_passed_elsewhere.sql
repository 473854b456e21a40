-- passed_elsewhere: fails by bench and code, and those of them that passed at another bench without a repair
-- One row is a bay x code (null: any) with loops that a pass ended from $from_at up to $until (UTC; $first_date is the
-- production date of the former): told counts those of
-- which it is known whether they were repaired (rule 15: null under 80 % coverage, and for safety-related findings),
-- elsewhere those without a repair whose pass came from another bay.
-- Reads: fail_to_clear, run, finding.
WITH loops AS (
    SELECT
        fail_to_clear.test,
        fail_to_clear.run_id,
        failed.run_id AS failed_run_id,
        failed.station,
        failed.bay,
        fail_to_clear.fixed_without_repair,
        (passed.station IS DISTINCT FROM failed.station OR passed.bay IS DISTINCT FROM failed.bay) AS moved
    FROM fail_to_clear
    INNER JOIN run AS passed ON passed.run_id = fail_to_clear.run_id
    INNER JOIN run AS failed
        ON failed.vin = fail_to_clear.vin
        AND failed.test = fail_to_clear.test
        AND failed."at" = fail_to_clear.failed_at
        AND failed.counts
        AND failed.result <> 'pass'
    WHERE
        fail_to_clear.production_date >= $first_date
        AND fail_to_clear.passed_at >= CAST($from_at AS TIMESTAMPTZ)
        AND fail_to_clear.passed_at < CAST($until AS TIMESTAMPTZ)
),

coded AS (
    SELECT DISTINCT loops.run_id, finding.code
    FROM loops
    INNER JOIN finding ON finding.run_id = loops.failed_run_id
    WHERE finding.counts_as IN ('defect', 'retest', 'masked', 'repeat')
)

SELECT
    loops.test,
    loops.station,
    loops.bay,
    NULL AS code,
    count(*) AS loops,
    count(loops.fixed_without_repair) AS told,
    count(*) FILTER (WHERE loops.fixed_without_repair AND loops.moved) AS elsewhere
FROM loops
GROUP BY loops.test, loops.station, loops.bay
UNION ALL
SELECT
    loops.test,
    loops.station,
    loops.bay,
    coded.code,
    count(*) AS loops,
    count(loops.fixed_without_repair) AS told,
    count(*) FILTER (WHERE loops.fixed_without_repair AND loops.moved) AS elsewhere
FROM loops
INNER JOIN coded ON coded.run_id = loops.run_id
GROUP BY loops.test, loops.station, loops.bay, coded.code
ORDER BY test, station, bay, code NULLS FIRST;
