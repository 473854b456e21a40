-- A declared table, anew
-- Writes: the table. Places: table.
DELETE FROM {table};

INSERT INTO {table} BY NAME
SELECT *
FROM arriving;
