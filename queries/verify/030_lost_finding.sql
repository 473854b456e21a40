-- Findings without a run that do not wait for it
-- One row a run id. Reads: finding, run.
SELECT cast(f.run_id AS VARCHAR) AS what, count(*) AS rows
FROM finding AS f
ANTI JOIN run AS r ON f.run_id = r.run_id
GROUP BY f.run_id
LIMIT 20;
