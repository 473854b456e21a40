-- Rows of the tables that feeds fill
-- One row a table. Reads: them.
SELECT 'source_file' AS name, count(*) AS rows FROM source_file
UNION ALL
SELECT 'unit' AS name, count(*) AS rows FROM unit
UNION ALL
SELECT 'run' AS name, count(*) AS rows FROM run
UNION ALL
SELECT 'finding' AS name, count(*) AS rows FROM finding
UNION ALL
SELECT 'reading' AS name, count(*) AS rows FROM reading
UNION ALL
SELECT 'repair' AS name, count(*) AS rows FROM repair
UNION ALL
SELECT 'event' AS name, count(*) AS rows FROM event;
