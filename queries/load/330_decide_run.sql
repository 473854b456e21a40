-- Of two versions of a run the higher revision wins, else the file ranked higher (rule 1)
-- Writes: run, superseded.run, version (old id, winning id and file of each version).
CREATE OR REPLACE TEMP TABLE pool AS
WITH told AS (
    SELECT * FROM run
    UNION ALL BY NAME
    SELECT * FROM superseded.run
    UNION ALL BY NAME
    SELECT * FROM incoming_run
),

named AS (
    SELECT *, coalesce(station || '|' || run_ref, cast(run_id AS VARCHAR)) AS name
    FROM told
)

SELECT
    n.*,
    row_number() OVER (
        PARTITION BY n.name ORDER BY coalesce(n.revision, 0) DESC, f.rank + n.file_row DESC
    ) AS standing
FROM named AS n
INNER JOIN contested_run AS c ON n.name = c.name
INNER JOIN file_rank AS f ON n.file_id = f.file_id;

CREATE OR REPLACE TEMP TABLE version AS
SELECT DISTINCT
    run_id,
    first_value(run_id) OVER (PARTITION BY name ORDER BY standing) AS winner_id,
    first_value(file_id) OVER (PARTITION BY name ORDER BY standing) AS winner_file_id
FROM pool;

DELETE FROM run
WHERE run_id IN (SELECT run_id FROM version);

DELETE FROM superseded.run
WHERE run_id IN (SELECT run_id FROM version);

INSERT INTO run BY NAME
SELECT * EXCLUDE (name, standing)
FROM pool
WHERE standing = 1;

INSERT INTO superseded.run BY NAME
SELECT * EXCLUDE (name, standing)
FROM pool
WHERE standing > 1;

INSERT INTO touched_unit
SELECT vin_sent, started_at_sent FROM pool
UNION ALL
SELECT vin, started_at_sent FROM pool;
