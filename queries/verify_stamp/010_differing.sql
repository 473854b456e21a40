-- Stamped rows that differ between the store and its stamps from nothing
-- One row a row of either side. Places: table, told. Reads: the store as `stored`, the fresh stamps as main.
SELECT 'stored' AS side, d.*
FROM (
    SELECT {told} FROM stored.main.{table}
    EXCEPT ALL
    SELECT {told} FROM {table}
) AS d
UNION ALL
SELECT 'fresh' AS side, d.*
FROM (
    SELECT {told} FROM {table}
    EXCEPT ALL
    SELECT {told} FROM stored.main.{table}
) AS d
LIMIT 20;
