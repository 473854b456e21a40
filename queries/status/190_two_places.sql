-- two_places: units that were at two stations at once
-- One row is a pair of stations with runs of one unit that overlap in time, between $from_at and $to_at; units counts each
-- unit once a pair, all_units once in all; seconds is the median overlap. Doubles of rule 2 are left out.
-- Reads: run.
WITH recent AS (
    SELECT run.run_id, run.vin, run.station, run.started_at, run."at"
    FROM run
    WHERE
        run."at" >= $from_at
        AND run."at" < $to_at
        AND run.void_reason IS DISTINCT FROM 'suspect_double'
),

overlap AS (
    SELECT
        one.vin,
        least(one.station, other.station) AS station,
        greatest(one.station, other.station) AS other_station,
        date_diff(
            'second',
            date_trunc('second', greatest(one.started_at, other.started_at)),
            date_trunc('second', least(one."at", other."at"))
        ) AS seconds
    FROM recent AS one
    INNER JOIN recent AS other ON other.vin = one.vin
    WHERE
        one.run_id < other.run_id
        AND one.station <> other.station
        AND one.started_at < other."at"
        AND other.started_at < one."at"
),

total AS (
    SELECT count(DISTINCT overlap.vin) AS units FROM overlap
)

SELECT
    overlap.station,
    overlap.other_station,
    count(DISTINCT overlap.vin) AS units,
    median(overlap.seconds) AS seconds,
    max(total.units) AS all_units
FROM overlap
CROSS JOIN total
GROUP BY overlap.station, overlap.other_station
ORDER BY units DESC, overlap.station ASC, overlap.other_station ASC;
