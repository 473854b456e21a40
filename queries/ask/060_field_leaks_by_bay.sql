-- field_leaks_by_bay: how many of the units that leaked in the field had passed the water test, and in which bay
-- One row is a bay with the run that cleared the unit, its latest counted pass; no bay: the unit has no pass at all.
-- suspect counts the passes that a failed check of the bench leaves unchecked (rule 13), void those of units with a void run
-- in that bay (rule 4). per_1000 is of all units that the bay passed last, whenever.
-- Attach: field (vin, reported_at)
-- Set: test = water, from_date = null, to_date = null
-- Reads: run, unit, unchecked, and the attached field reports.
WITH reported AS (
    SELECT CAST(field.vin AS VARCHAR) AS vin, min(CAST(field.reported_at AS DATE)) AS reported_on
    FROM field
    WHERE
        (CAST($from_date AS DATE) IS NULL OR CAST(field.reported_at AS DATE) >= CAST($from_date AS DATE))
        AND (CAST($to_date AS DATE) IS NULL OR CAST(field.reported_at AS DATE) <= CAST($to_date AS DATE))
    GROUP BY CAST(field.vin AS VARCHAR)
),

cleared AS (
    SELECT run.vin, run.run_id, run.station, run.bay, run."at"
    FROM run
    INNER JOIN unit ON unit.vin = run.vin
    WHERE run.test = $test AND run.counts AND run.result = 'pass' AND unit.kind = 'production'
    QUALIFY row_number() OVER (PARTITION BY run.vin ORDER BY run."at" DESC, run.run_id DESC) = 1
),

bay_void AS (
    SELECT DISTINCT run.vin, run.station, run.bay
    FROM run
    WHERE run.test = $test AND run.void_reason IN ('weak', 'missing')
),

passed AS (
    SELECT cleared.station, cleared.bay, count(*) AS units
    FROM cleared
    GROUP BY cleared.station, cleared.bay
)

SELECT
    cleared.station,
    cleared.bay,
    count(*) AS leaks,
    count(unchecked.run_id) AS suspect,
    count(bay_void.vin) AS void,
    max(passed.units) AS passed_units,
    1000 * count(cleared.vin) / max(passed.units) AS per_1000,
    min(reported.reported_on) AS first_reported_on,
    max(reported.reported_on) AS last_reported_on
FROM reported
LEFT JOIN cleared ON cleared.vin = reported.vin
LEFT JOIN unchecked ON unchecked.run_id = cleared.run_id
LEFT JOIN bay_void ON bay_void.vin = cleared.vin AND bay_void.station = cleared.station AND bay_void.bay IS NOT DISTINCT FROM cleared.bay
LEFT JOIN passed ON passed.station = cleared.station AND passed.bay IS NOT DISTINCT FROM cleared.bay
GROUP BY cleared.station, cleared.bay
ORDER BY leaks DESC, cleared.station, cleared.bay;
