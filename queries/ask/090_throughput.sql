-- throughput: units and runs that each station got through, by shift
-- One row is a shift x station: runs an hour of the shift's length, minutes a run, and the longest time in which nothing
-- ended, between its first and last run. All kinds of units. Rule 3.
-- Set: test = null
-- Reads: run, shift_window.
WITH ran AS (
    SELECT
        run.production_date,
        run.shift,
        run.test,
        run.station,
        run.vin,
        run.counts,
        run."at",
        date_diff('second', run.started_at, run."at") / 60 AS minutes,
        date_diff('second', lag(run."at") OVER station_shift, run."at") / 60 AS minutes_since
    FROM run
    WHERE
        run.void_reason IS DISTINCT FROM 'suspect_double'
        AND run.shift IS NOT NULL
        AND (CAST($test AS VARCHAR) IS NULL OR run.test = $test)
    WINDOW station_shift AS (
        PARTITION BY run.production_date, run.shift, run.test, run.station
        ORDER BY run."at"
    )
)

SELECT
    ran.production_date,
    ran.shift,
    ran.test,
    ran.station,
    count(*) AS runs,
    count_if(ran.counts) AS counted,
    count(DISTINCT ran.vin) AS units,
    3600 * count(*) / date_diff('second', min(shift_window.starts_at), min(shift_window.ends_at)) AS runs_per_hour,
    median(ran.minutes) AS minutes_median,
    max(ran.minutes_since) AS longest_gap_minutes
FROM ran
INNER JOIN shift_window
    ON shift_window.production_date = ran.production_date AND shift_window.shift = ran.shift
GROUP BY ran.production_date, ran.shift, ran.test, ran.station
ORDER BY ran.production_date, ran.shift, ran.test, ran.station;
