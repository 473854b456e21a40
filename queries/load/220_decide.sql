-- Of two rows with one key the file ranked higher wins whole; the loser is kept (rule 1)
-- Writes: the table and its twin in superseded. Places: table, key, t_key, c_key.
CREATE OR REPLACE TEMP TABLE pool AS
WITH version AS (
    SELECT * FROM {table}
    UNION ALL BY NAME
    SELECT * FROM superseded.{table}
    UNION ALL BY NAME
    SELECT * FROM incoming
)

SELECT t.*, row_number() OVER (PARTITION BY {key} ORDER BY f.rank + t.file_row DESC) AS standing
FROM version AS t
SEMI JOIN contested AS c ON row({t_key}) IS NOT DISTINCT FROM row({c_key})
INNER JOIN file_rank AS f ON t.file_id = f.file_id;

DELETE FROM {table} AS t
USING contested AS c
WHERE row({t_key}) IS NOT DISTINCT FROM row({c_key});

DELETE FROM superseded.{table} AS t
USING contested AS c
WHERE row({t_key}) IS NOT DISTINCT FROM row({c_key});

INSERT INTO {table} BY NAME
SELECT * EXCLUDE (standing)
FROM pool
WHERE standing = 1;

INSERT INTO superseded.{table} BY NAME
SELECT * EXCLUDE (standing)
FROM pool
WHERE standing > 1;

INSERT INTO {table} BY NAME
SELECT t.*
FROM incoming AS t
ANTI JOIN contested AS c ON row({t_key}) IS NOT DISTINCT FROM row({c_key});
