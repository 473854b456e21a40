-- bench_faults: faults of the benches themselves, by shift and place
-- One row is a shift x station x bay x code of owner area `equipment`; runs counts each run once. Rule 6.
-- Set: test = null
-- Reads: classed_finding, run.
SELECT
    run.production_date,
    run.shift,
    run.test,
    run.station,
    run.bay,
    classed_finding.code,
    max(classed_finding.title) AS title,
    count(DISTINCT run.run_id) AS runs,
    count(DISTINCT run.vin) AS units,
    count(DISTINCT run.run_id) FILTER (WHERE run.void_reason = 'equipment') AS void_runs
FROM classed_finding
INNER JOIN run ON run.run_id = classed_finding.run_id
WHERE
    classed_finding.owner_area = 'equipment'
    AND (CAST($test AS VARCHAR) IS NULL OR run.test = $test)
GROUP BY run.production_date, run.shift, run.test, run.station, run.bay, classed_finding.code
ORDER BY run.production_date, run.shift, run.test, run.station, run.bay, classed_finding.code;
