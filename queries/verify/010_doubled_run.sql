-- Runs with one id
-- One row an id that stands twice. Reads: run.
SELECT cast(run_id AS VARCHAR) AS what, count(*) AS rows
FROM run
GROUP BY run_id
HAVING count(*) > 1
LIMIT 20;
