-- Rows that are taken back go; where another row of their key is kept, that one is decided again
-- Writes: the table, its twin in superseded, touched_unit, contested, an empty incoming. Places: table, key, t_key, s_key, time.
INSERT INTO touched_unit
SELECT t.vin, min({time}) AS earliest_at
FROM {table} AS t
SEMI JOIN taken_back AS b ON t.file_id = b.file_id AND t.file_row = b.file_row
GROUP BY t.vin;

CREATE OR REPLACE TEMP TABLE contested AS
SELECT {t_key}
FROM {table} AS t
SEMI JOIN taken_back AS b ON t.file_id = b.file_id AND t.file_row = b.file_row
WHERE EXISTS (SELECT 1 FROM superseded.{table} AS s WHERE row({s_key}) IS NOT DISTINCT FROM row({t_key}));

DELETE FROM {table} AS t
USING taken_back AS b
WHERE t.file_id = b.file_id AND t.file_row = b.file_row;

DELETE FROM superseded.{table} AS t
USING taken_back AS b
WHERE t.file_id = b.file_id AND t.file_row = b.file_row;

CREATE OR REPLACE TEMP TABLE incoming AS
SELECT *
FROM {table}
LIMIT 0;
