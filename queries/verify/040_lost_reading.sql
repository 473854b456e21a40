-- Readings without a run that do not wait for it
-- One row a run id. Reads: reading, run.
SELECT cast(t.run_id AS VARCHAR) AS what, count(*) AS rows
FROM reading AS t
ANTI JOIN run AS r ON t.run_id = r.run_id
GROUP BY t.run_id
LIMIT 20;
