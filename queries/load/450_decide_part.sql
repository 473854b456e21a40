-- Findings or readings of runs with several versions: those of the winning version's file, and those that came apart (rule 1)
-- Writes: the table and its twin in superseded. Places: part, key, unsent (what a row that lost does not keep).
CREATE OR REPLACE TEMP TABLE pool AS
WITH told AS (
    SELECT * FROM {part} WHERE file_id IS NOT NULL
    UNION ALL BY NAME
    SELECT * FROM superseded.{part}
    UNION ALL BY NAME
    SELECT * FROM incoming_part
),

eligible AS (
    SELECT
        t.* REPLACE (v.winner_id AS run_id),
        f.rank + t.file_row AS rank,
        t.file_id = v.winner_file_id OR s.feed <> v.test AS stands
    FROM told AS t
    INNER JOIN version AS v ON t.run_id = v.run_id
    INNER JOIN source_file AS s ON t.file_id = s.file_id
    INNER JOIN file_rank AS f ON t.file_id = f.file_id
)

SELECT
    * EXCLUDE (rank),
    row_number() OVER (PARTITION BY run_id, {key} ORDER BY stands DESC, rank DESC) AS standing
FROM eligible;

DELETE FROM {part}
WHERE run_id IN (SELECT run_id FROM version);

DELETE FROM superseded.{part}
WHERE run_id IN (SELECT run_id FROM version);

INSERT INTO {part} BY NAME
SELECT * EXCLUDE (standing, stands)
FROM pool
WHERE standing = 1 AND stands;

INSERT INTO superseded.{part} BY NAME
SELECT * EXCLUDE ({unsent})
FROM pool
WHERE standing > 1 OR NOT stands;
