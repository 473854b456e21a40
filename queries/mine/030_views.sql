-- The views of the plant's own that the copy holds
-- One row a view. Reads: the catalogue of the database.
SELECT v.view_name
FROM duckdb_views() AS v
WHERE v.schema_name = 'mine' AND NOT v.internal
ORDER BY v.view_name;
