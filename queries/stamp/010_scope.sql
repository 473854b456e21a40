-- The units whose stamps are due
-- One row is a touched unit; unit_no stands for it in the stamps, for numbers join faster than names.
-- Writes: scope, file_rank. Reads: due_unit, unit, source_file. Parameter: since.
-- Stamps run in DuckDB alone; views keep to the portable subset.
-- Mostly the units touched are of late: only the others are looked for among all units.
CREATE OR REPLACE TEMP TABLE scope AS
WITH of_late AS (
    SELECT u.vin, u.earliest_at
    FROM unit AS u
    INNER JOIN due_unit AS d ON u.vin = d.vin
    WHERE
        u.earliest_at IS NULL
        OR u.earliest_at >= $since
),

older AS (
    SELECT u.vin, u.earliest_at
    FROM unit AS u
    INNER JOIN (SELECT d.vin FROM due_unit AS d ANTI JOIN of_late AS l ON d.vin = l.vin) AS o ON u.vin = o.vin
),

known AS (
    SELECT * FROM of_late
    UNION ALL
    SELECT * FROM older
)

SELECT
    d.vin,
    row_number() OVER () AS unit_no,
    least(d.earliest_at, u.earliest_at) AS earliest_at
FROM due_unit AS d
LEFT JOIN known AS u ON d.vin = u.vin;

-- Rule 1's rank of files, as a number: later made_at wins, ties by sha256.
CREATE OR REPLACE TEMP TABLE file_rank AS
SELECT file_id, row_number() OVER (ORDER BY made_at, sha256) * 4294967296 AS rank
FROM source_file;
