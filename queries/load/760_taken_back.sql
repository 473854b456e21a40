-- Stored rows whose unit key names another unit by now than the one they were taken for (rule 17)
-- One row a row, with the file it came in. Writes: taken_back. Reads: keyed_row, touched_key, unit_key, source_file.
CREATE OR REPLACE TEMP TABLE taken_back AS
WITH asked AS (
    SELECT k.file_id, k.file_row, k.key, k.vin, k."at"
    FROM keyed_row AS k
    WHERE k.key IN (SELECT key FROM touched_key)
),

given AS (
    SELECT
        kind || '=' || "value" AS key,
        vin,
        coalesce(valid_from, TIMESTAMPTZ '0001-01-01 00:00:00+00:00') AS since,
        valid_to
    FROM unit_key
),

-- A key that was given on names its new unit alone, so the last one that had begun decides.
named AS (
    SELECT
        a.file_id,
        a.file_row,
        a.vin,
        CASE WHEN a."at" >= g.valid_to THEN NULL ELSE g.vin END AS now_vin
    FROM asked AS a
    LEFT JOIN given AS g ON a.key = g.key AND coalesce(a."at", 'infinity') >= g.since
    QUALIFY row_number() OVER (PARTITION BY a.file_id, a.file_row ORDER BY g.since DESC NULLS LAST, g.vin DESC) = 1
)

SELECT file_id, file_row
FROM named
WHERE vin IS DISTINCT FROM now_vin;

SELECT k.file_id, k.file_row, k.feed, k.key AS waits_for, k.raw
FROM keyed_row AS k
SEMI JOIN taken_back AS b ON k.file_id = b.file_id AND k.file_row = b.file_row
ORDER BY k.feed, k.file_id, k.file_row;
