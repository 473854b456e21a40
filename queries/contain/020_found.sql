-- found: the units on which a code was found
-- One row is a production unit with the code in a counted run of the test, first or later (rules 5, 7 and 8; an
-- observation is none); repaired where a repair of a class other than none ended after it (rule 15).
-- Parameters: code (null: any), zone (null: any), test. Reads: classed_finding, run, repair.
WITH seen AS (
    SELECT
        classed_finding.vin,
        max(classed_finding."at") AS found_at
    FROM classed_finding
    WHERE
        classed_finding.test = $test
        AND classed_finding.kind = 'production'
        AND classed_finding.counts_as IN ('defect', 'retest', 'masked', 'repeat')
        AND (CAST($code AS VARCHAR) IS NULL OR classed_finding.code = $code)
        AND (CAST($zone AS VARCHAR) IS NULL OR classed_finding.zone = $zone)
    GROUP BY classed_finding.vin
),

mended AS (
    SELECT
        seen.vin,
        count(repair.repair_id) AS repairs
    FROM seen
    INNER JOIN repair
        ON repair.vin = seen.vin
        AND (repair.test IS NULL OR repair.test = $test)
        AND repair."class" <> 'none'
        AND coalesce(repair.ended_at, repair.started_at, repair.entered_at) > seen.found_at
    GROUP BY seen.vin
)

SELECT
    seen.vin,
    seen.found_at,
    coalesce(mended.repairs, 0) > 0 AS repaired
FROM seen
LEFT JOIN mended ON mended.vin = seen.vin
ORDER BY seen.vin;
