-- The units that were touched
-- One row is a touched unit, or one that a correction of a touched unit's run names (rule 17).
-- Writes: due_unit. Reads: touched_unit, arrived_unit, arrived_run, known_run, correction.
-- Gives: since when most of them are known, with two months of margin.
CREATE OR REPLACE TEMP TABLE due_unit AS
WITH touched AS (
    SELECT vin, earliest_at FROM touched_unit
    UNION ALL
    SELECT vin, earliest_at FROM arrived_unit
    UNION ALL
    SELECT vin, started_at AS earliest_at FROM arrived_run
),

mended_run AS (
    SELECT r.vin, r.vin_sent, c.value, to_timestamp(r.run_id >> 30) AS earliest_at
    FROM correction AS c
    INNER JOIN known_run AS r ON c.run_id = r.run_id
    WHERE
        c.field = 'vin'
        AND (r.vin IN (SELECT vin FROM touched) OR r.vin_sent IN (SELECT vin FROM touched))
),

named AS (
    SELECT vin, earliest_at FROM touched
    UNION ALL
    SELECT vin, earliest_at FROM mended_run
    UNION ALL
    SELECT vin_sent, earliest_at FROM mended_run
    UNION ALL
    SELECT value, earliest_at FROM mended_run
)

SELECT vin, min(earliest_at) AS earliest_at
FROM named
GROUP BY vin;

SELECT median(earliest_at) - INTERVAL 60 DAY AS since
FROM due_unit;
