-- void_runs: the runs of a shift that do not count, by place and reason
-- One row is a test x station x bay x void_reason of production units; runs counts all runs of the place. Rules 4 to 6, 9.
-- Reads: run_of_unit.
WITH ran AS (
    SELECT run_of_unit.test, run_of_unit.station, run_of_unit.bay, run_of_unit.void_reason
    FROM run_of_unit
    WHERE
        run_of_unit.production_date = $production_date
        AND run_of_unit.shift = $shift
        AND run_of_unit.kind = 'production'
),

place AS (
    SELECT ran.test, ran.station, ran.bay, count(*) AS runs
    FROM ran
    GROUP BY ran.test, ran.station, ran.bay
)

SELECT
    ran.test,
    ran.station,
    ran.bay,
    ran.void_reason AS reason,
    count(*) AS void_runs,
    max(place.runs) AS runs
FROM ran
INNER JOIN place
    ON place.test = ran.test
    AND place.station = ran.station
    AND place.bay IS NOT DISTINCT FROM ran.bay
WHERE ran.void_reason IS NOT NULL
GROUP BY ran.test, ran.station, ran.bay, ran.void_reason
ORDER BY void_runs DESC, ran.test ASC, ran.station ASC, ran.bay ASC, ran.void_reason ASC;
