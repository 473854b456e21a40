-- absent_places: places without a run in a shift that had some in the shifts before
-- One row is a test x station x bay that ran in at least 6 of the 8 shifts before, whatever their names; fewest and most
-- are its runs in those. Reads: shift_window, run.
WITH present AS (
    SELECT shift_window.starts_at
    FROM shift_window
    WHERE
        shift_window.production_date = $production_date
        AND shift_window.shift = $shift
),

before AS (
    SELECT shift_window.production_date, shift_window.shift
    FROM shift_window
    INNER JOIN present ON shift_window.ends_at <= present.starts_at
    WHERE NOT shift_window.cancelled
    ORDER BY shift_window.starts_at DESC
    LIMIT 8
),

ran AS (
    SELECT run.test, run.station, run.bay, count(*) AS runs
    FROM run
    INNER JOIN before ON before.production_date = run.production_date AND before.shift = run.shift
    GROUP BY run.test, run.station, run.bay, run.production_date, run.shift
)

SELECT
    ran.test,
    ran.station,
    ran.bay,
    count(*) AS shifts,
    min(ran.runs) AS fewest,
    max(ran.runs) AS most
FROM ran
WHERE
    NOT EXISTS (
        SELECT 1
        FROM run
        WHERE
            run.production_date = $production_date
            AND run.shift = $shift
            AND run.test = ran.test
            AND run.station = ran.station
            AND run.bay IS NOT DISTINCT FROM ran.bay
    )
GROUP BY ran.test, ran.station, ran.bay
HAVING count(*) >= 6
ORDER BY ran.test, ran.station, ran.bay;
