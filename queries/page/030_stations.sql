-- stations: the stations that ran in a shift, and whether they were heard from after its end
-- One row is a station x test; last_at is plant-local. Silence after the end leaves the figures provisional (rule 11).
-- Reads: run, station_latest, shift_window, plant_setting.
WITH ran AS (
    SELECT DISTINCT run.station, run.test
    FROM run
    WHERE
        run.production_date = $production_date
        AND run.shift IS NOT DISTINCT FROM $shift
),

ended AS (
    SELECT shift_window.ends_at
    FROM shift_window
    WHERE
        shift_window.production_date = $production_date
        AND shift_window.shift = $shift
)

SELECT
    ran.station,
    ran.test,
    station_latest.last_at AT TIME ZONE plant_setting.timezone AS last_at,
    coalesce(station_latest.last_at >= ended.ends_at, ended.ends_at IS NULL) AS heard_after
FROM ran
CROSS JOIN plant_setting
INNER JOIN station_latest ON station_latest.station = ran.station
LEFT JOIN ended ON true
ORDER BY ran.test, ran.station;
