-- bay_run: the runs of a test in a time, by bay
-- One row is a production unit's run, counted or not; has_code where the code was found in it (rules 7, 8 and 13); times UTC.
-- Parameters: test, code (null: any), zone (null: any), from_at, to_at (UTC). Reads: run_of_unit, classed_finding.
WITH seen AS (
    SELECT DISTINCT classed_finding.run_id
    FROM classed_finding
    WHERE
        classed_finding.test = $test
        AND classed_finding.counts_as IN ('defect', 'retest', 'masked', 'repeat')
        AND (CAST($code AS VARCHAR) IS NULL OR classed_finding.code = $code)
        AND (CAST($zone AS VARCHAR) IS NULL OR classed_finding.zone = $zone)
)

SELECT
    run_of_unit.vin,
    run_of_unit.run_id,
    run_of_unit.station,
    run_of_unit.bay,
    run_of_unit."at",
    run_of_unit.attempt,
    run_of_unit.counts,
    run_of_unit.result,
    seen.run_id IS NOT NULL AS has_code
FROM run_of_unit
LEFT JOIN seen ON seen.run_id = run_of_unit.run_id
WHERE
    run_of_unit.test = $test
    AND run_of_unit.kind = 'production'
    AND run_of_unit."at" >= CAST($from_at AS TIMESTAMPTZ)
    AND run_of_unit."at" < CAST($to_at AS TIMESTAMPTZ)
ORDER BY run_of_unit."at", run_of_unit.run_id;
