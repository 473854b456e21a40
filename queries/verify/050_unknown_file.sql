-- Runs of a file that is not in source_file
-- One row a file id. Reads: run, source_file.
SELECT cast(r.file_id AS VARCHAR) AS what, count(*) AS rows
FROM run AS r
ANTI JOIN source_file AS s ON r.file_id = s.file_id
GROUP BY r.file_id
LIMIT 20;
