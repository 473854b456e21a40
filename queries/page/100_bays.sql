-- bays: the runs of a shift by bay
-- One row is a test x station x bay with a run of a production unit (rules 7, 9 and 13).
-- Reads: run_of_unit.
SELECT
    run_of_unit.test,
    run_of_unit.station,
    run_of_unit.bay,
    count(DISTINCT run_of_unit.vin) AS presented,
    count(*) FILTER (WHERE run_of_unit.attempt = 1) AS tested,
    count(*) FILTER (WHERE run_of_unit.attempt = 1 AND run_of_unit.result = 'pass') AS passed_first,
    count(*) FILTER (
        WHERE NOT run_of_unit.counts AND run_of_unit.void_reason IS DISTINCT FROM 'aborted'
    ) AS void_runs
FROM run_of_unit
WHERE
    run_of_unit.production_date = $production_date
    AND run_of_unit.shift IS NOT DISTINCT FROM $shift
    AND run_of_unit.kind = 'production'
GROUP BY run_of_unit.test, run_of_unit.station, run_of_unit.bay
ORDER BY run_of_unit.test, run_of_unit.station, run_of_unit.bay;
