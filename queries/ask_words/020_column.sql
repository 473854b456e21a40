-- Columns of the copy's tables and views, with what each holds
-- One row a column, in the order in which they stand; those of superseded are told as in the table of the same name.
-- Reads: the catalogue of the database.
SELECT
    c.schema_name,
    c.table_name,
    c.column_name,
    c.data_type,
    coalesce(c.comment, told.comment) AS comment
FROM duckdb_columns() AS c
LEFT JOIN duckdb_columns() AS told
    ON told.database_name = c.database_name
    AND told.schema_name = 'main'
    AND told.table_name = c.table_name
    AND told.column_name = c.column_name
    AND c.schema_name = 'superseded'
WHERE NOT c.internal
ORDER BY c.schema_name, c.table_name, c.column_index;
