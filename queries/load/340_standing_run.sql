-- Runs that a file tells with others; nothing comes in
-- Used when a file's made_at falls; returns their number. Writes: contested_run. Parameter: file_id.
CREATE OR REPLACE TEMP TABLE contested_run AS
WITH version AS (
    SELECT file_id, coalesce(station || '|' || run_ref, cast(run_id AS VARCHAR)) AS name FROM run
    UNION ALL
    SELECT file_id, coalesce(station || '|' || run_ref, cast(run_id AS VARCHAR)) AS name FROM superseded.run
)

SELECT name
FROM version
GROUP BY name
HAVING count(*) > 1 AND bool_or(file_id = $file_id);

SELECT count(*) AS contested FROM contested_run;
