-- Incoming rows that no other row contests
-- Writes: the table. Places: table, rows.
INSERT INTO {table} BY NAME
SELECT *
FROM {rows};
