-- Names of the tables and views of a session, with their columns, for completion and for names that are taken
-- One row a column. Reads: the catalogue of the database.
SELECT c.database_name, c.schema_name, c.table_name, c.column_name
FROM duckdb_columns() AS c
WHERE NOT c.internal
ORDER BY c.database_name, c.schema_name, c.table_name, c.column_index;
