-- The units whose stamps are due
-- One row is a touched unit, or one that a correction of a touched unit's run names (rule 17). Writes: scope, file_rank.
-- Reads: touched_unit, unit, run, correction, source_file. Stamps run in DuckDB alone; views keep to the portable subset.
CREATE OR REPLACE TEMP TABLE scope AS
WITH named AS (
    SELECT vin, earliest_at
    FROM touched_unit
    UNION ALL
    SELECT c.value AS vin, to_timestamp(r.run_id >> 30) AS earliest_at
    FROM correction AS c
    INNER JOIN run AS r ON c.run_id = r.run_id
    WHERE c.field = 'vin' AND r.vin IN (SELECT vin FROM touched_unit)
)

SELECT
    n.vin,
    least(min(n.earliest_at), min(u.earliest_at)) AS earliest_at
FROM named AS n
LEFT JOIN unit AS u ON n.vin = u.vin
GROUP BY n.vin;

-- Rule 1's rank of files, as a number: later made_at wins, ties by sha256.
CREATE OR REPLACE TEMP TABLE file_rank AS
SELECT file_id, row_number() OVER (ORDER BY made_at, sha256) * 4294967296 AS rank
FROM source_file;
