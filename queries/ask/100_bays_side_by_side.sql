-- bays_side_by_side: does a bay see less, or more, than the others of its test in the same shifts
-- One row is a bay over the dates: what it failed first time, and what it would have failed at the rate of the other bays in
-- the same shift. A bay that sees too little is as suspect as one that sees too much. Rules 9 and 13.
-- Set: test = water, first_date = null, last_date = null
-- Reads: first_run.
WITH bay AS (
    SELECT
        first_run.production_date,
        first_run.shift,
        first_run.station,
        first_run.bay,
        count(*) AS tested,
        count(*) - sum(first_run.passed) AS failed
    FROM first_run
    WHERE
        first_run.test = $test
        AND (CAST($first_date AS DATE) IS NULL OR first_run.production_date >= CAST($first_date AS DATE))
        AND (CAST($last_date AS DATE) IS NULL OR first_run.production_date <= CAST($last_date AS DATE))
    GROUP BY first_run.production_date, first_run.shift, first_run.station, first_run.bay
),

beside AS (
    SELECT
        bay.*,
        sum(bay.tested) OVER same_shift - bay.tested AS others_tested,
        sum(bay.failed) OVER same_shift - bay.failed AS others_failed
    FROM bay
    WINDOW same_shift AS (PARTITION BY bay.production_date, bay.shift)
)

SELECT
    beside.station,
    beside.bay,
    count(*) AS shifts,
    sum(beside.tested) AS tested,
    sum(beside.failed) AS failed,
    sum(beside.tested * beside.others_failed / nullif(beside.others_tested, 0)) AS expected_failed,
    sum(beside.failed) / nullif(sum(beside.tested * beside.others_failed / nullif(beside.others_tested, 0)), 0) AS ratio
FROM beside
GROUP BY beside.station, beside.bay
ORDER BY ratio, beside.station, beside.bay;
