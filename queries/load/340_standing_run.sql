-- Runs that a file holds against others; nothing comes in
-- Used when a file's made_at falls. Writes: contested_run, incoming_run. Parameter: file_id.
CREATE OR REPLACE TEMP TABLE contested_run AS
SELECT coalesce(station || '|' || run_ref, cast(run_id AS VARCHAR)) AS name
FROM run
WHERE file_id = $file_id
INTERSECT
SELECT coalesce(station || '|' || run_ref, cast(run_id AS VARCHAR)) AS name
FROM superseded.run;

CREATE OR REPLACE TEMP TABLE incoming_run AS
SELECT *
FROM run
LIMIT 0;
