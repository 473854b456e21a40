-- Incoming rows that no other row contests
-- Writes: the table. Places: table.
INSERT INTO {table} BY NAME
SELECT *
FROM incoming;
