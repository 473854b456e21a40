-- Runs that a kept version outranks (rule 1); versions moved by an hour never win (rule 2)
-- One row a run id. Reads: run, superseded.run, source_file, twin.
SELECT cast(r.run_id AS VARCHAR) AS what, count(*) AS rows
FROM run AS r
INNER JOIN source_file AS f ON r.file_id = f.file_id
INNER JOIN superseded.run AS s ON r.run_id = s.run_id
INNER JOIN source_file AS g ON s.file_id = g.file_id
WHERE
    (coalesce(s.revision, 0), g.made_at, g.sha256) > (coalesce(r.revision, 0), f.made_at, f.sha256)
    AND NOT EXISTS (SELECT 1 FROM twin AS t WHERE t.by_name AND t.run_id = s.run_id AND t.file_id = s.file_id)
GROUP BY r.run_id
LIMIT 20;
