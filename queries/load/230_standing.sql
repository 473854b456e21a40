-- Keys that a file holds against others; nothing comes in
-- Used when a file's made_at falls; returns their number. Writes: contested, incoming. Places: table, key, t_key, s_key. Parameter: file_id.
CREATE OR REPLACE TEMP TABLE contested AS
SELECT {key}
FROM {table} AS t
WHERE
    t.file_id = $file_id
    AND EXISTS (SELECT 1 FROM superseded.{table} AS s WHERE row({s_key}) IS NOT DISTINCT FROM row({t_key}));

CREATE OR REPLACE TEMP TABLE incoming AS
SELECT *
FROM {table}
LIMIT 0;

SELECT count(*) AS contested FROM contested;
