-- Tables and views of the copy, with what one row of each is
-- One row a table or view; those of superseded say that they are shaped as the table of the same name.
-- Reads: the catalogue of the database.
WITH relation AS (
    SELECT t.schema_name, t.table_name, 'table' AS kind, t.comment
    FROM duckdb_tables() AS t
    WHERE NOT t.internal AND NOT t.temporary
    UNION ALL
    SELECT v.schema_name, v.view_name AS table_name, 'view' AS kind, v.comment
    FROM duckdb_views() AS v
    WHERE NOT v.internal AND NOT v.temporary
)

SELECT
    r.schema_name,
    r.table_name,
    r.kind,
    CASE
        WHEN r.schema_name = 'superseded'
            THEN concat('One row is a losing version of a row of ', r.table_name, ', whole (rule 1).')
        ELSE r.comment
    END AS comment
FROM relation AS r
ORDER BY r.schema_name, r.table_name;
