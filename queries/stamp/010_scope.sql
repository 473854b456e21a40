-- The units whose stamps are due
-- One row is a touched unit, or one that a correction of a touched unit's run names (rule 17); unit_no stands for it in
-- the stamps, for numbers join faster than names. Writes: scope, file_rank.
-- Reads: touched_unit, unit, known_run, correction, source_file. Stamps run in DuckDB alone; views keep to the portable subset.
CREATE OR REPLACE TEMP TABLE scope AS
WITH mended_run AS (
    SELECT r.vin, r.vin_sent, c.value, to_timestamp(r.run_id >> 30) AS earliest_at
    FROM correction AS c
    INNER JOIN known_run AS r ON c.run_id = r.run_id
    WHERE
        c.field = 'vin'
        AND (r.vin IN (SELECT vin FROM touched_unit) OR r.vin_sent IN (SELECT vin FROM touched_unit))
),

named AS (
    SELECT vin, earliest_at FROM touched_unit
    UNION ALL
    SELECT vin, earliest_at FROM mended_run
    UNION ALL
    SELECT vin_sent, earliest_at FROM mended_run
    UNION ALL
    SELECT value, earliest_at FROM mended_run
),

due AS (
    SELECT vin, min(earliest_at) AS earliest_at
    FROM named
    GROUP BY vin
)

SELECT
    d.vin,
    row_number() OVER () AS unit_no,
    least(d.earliest_at, u.earliest_at) AS earliest_at
FROM due AS d
LEFT JOIN unit AS u ON d.vin = u.vin;

-- Rule 1's rank of files, as a number: later made_at wins, ties by sha256.
CREATE OR REPLACE TEMP TABLE file_rank AS
SELECT file_id, row_number() OVER (ORDER BY made_at, sha256) * 4294967296 AS rank
FROM source_file;
