-- Keys of incoming rows that the table holds already
-- One row a key. Writes: contested. Gives: how many of them repeat the row that stands, how many differ.
-- Places: rows (incoming or arriving), table, within (a time of the key that bounds the look-up),
-- first (a column of the key that is never null), key, i_key, t_key, i_told, t_told (told: every column but the file's).
-- Parameters: first_at, last_at (null: no bound).
CREATE OR REPLACE TEMP TABLE contested AS
SELECT {i_key}, row({i_told}) IS NOT DISTINCT FROM row({t_told}) AS repeats
FROM {rows} AS i
INNER JOIN {table} AS t ON i.{first} = t.{first} AND row({i_key}) IS NOT DISTINCT FROM row({t_key})
WHERE
    t.file_id IS NOT NULL
    AND ($first_at IS NULL OR t.{within} BETWEEN $first_at AND $last_at);

SELECT
    count(*) FILTER (repeats) AS repeated,
    count(*) FILTER (NOT repeats) AS amended
FROM contested;
