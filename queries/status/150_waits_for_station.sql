-- waits_for_station: which stations of a shift, and whether the units feed, have yet to send something newer
-- One row is a station of a required test that ran in the shift, or the units feed (station null); last_at is the newest
-- it has sent (UTC). Rule 11: the shift settles when each is newer than its end + settle_hours.
-- Reads: line_standing, run, station_latest, source_file.
WITH asked AS (
    SELECT DISTINCT line_standing.test
    FROM line_standing
    WHERE
        line_standing.production_date = $production_date
        AND line_standing.shift = $shift
        AND line_standing.required
),

ran AS (
    SELECT DISTINCT run.station
    FROM run
    WHERE
        run.production_date = $production_date
        AND run.shift = $shift
        AND (run.test IN (SELECT asked.test FROM asked) OR NOT EXISTS (SELECT 1 FROM asked))
)

SELECT ran.station, station_latest.last_at
FROM ran
INNER JOIN station_latest ON station_latest.station = ran.station
UNION ALL
SELECT NULL AS station, max(source_file.made_at) AS last_at
FROM source_file
WHERE source_file.feed = 'units'
ORDER BY 1;
