-- Runs that no other version contests
-- Writes: run.
INSERT INTO run BY NAME
SELECT *
FROM incoming_run
WHERE coalesce(station || '|' || run_ref, cast(run_id AS VARCHAR)) NOT IN (SELECT name FROM contested_run);
