-- Of two versions of a run the higher revision wins, else the file ranked higher (rule 1)
-- A version that would move three or more known run_refs of one file by exactly one hour never wins (rule 2).
-- Writes: run, superseded.run, twin, version (old id, winning id and file of each version).
CREATE OR REPLACE TEMP TABLE candidate AS
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

-- Rows of one file are one version: where some were refused at first and came later, the worst result counts (rule 5).
SELECT
    n.* REPLACE (
        ['fail', 'aborted', 'bypass', 'pass'][
            min(list_position(['fail', 'aborted', 'bypass', 'pass'], n.result_sent))
                OVER (PARTITION BY n.name, n.file_id, coalesce(n.revision, 0))
        ] AS result_sent
    ),
    f.rank
FROM named AS n
INNER JOIN contested_run AS c ON n.name = c.name
INNER JOIN file_rank AS f ON n.file_id = f.file_id
QUALIFY row_number() OVER (PARTITION BY n.name, n.file_id ORDER BY coalesce(n.revision, 0) DESC, n.file_row) = 1;

DELETE FROM twin
WHERE by_name AND run_id IN (SELECT run_id FROM candidate);

INSERT INTO twin BY NAME
SELECT
    l.run_id,
    l.file_id,
    e.run_id AS twin_run_id,
    e.file_id AS twin_file_id,
    (l.run_id >> 30) - (e.run_id >> 30) AS step_seconds,
    true AS by_name,
    l.vin_sent AS vin
FROM candidate AS l
INNER JOIN candidate AS e ON l.name = e.name AND e.rank < l.rank
WHERE l.run_ref IS NOT NULL AND (l.run_id >> 30) - (e.run_id >> 30) IN (3600, -3600);

CREATE OR REPLACE TEMP TABLE pool AS
WITH moved AS (
    SELECT DISTINCT t.run_id, t.file_id
    FROM twin AS t
    INNER JOIN (
        SELECT file_id, twin_file_id, step_seconds
        FROM twin
        WHERE by_name
        GROUP BY file_id, twin_file_id, step_seconds
        HAVING count(DISTINCT run_id) >= 3
    ) AS pair USING (file_id, twin_file_id, step_seconds)
    WHERE t.by_name
)

SELECT
    c.* EXCLUDE (rank),
    row_number() OVER (
        PARTITION BY c.name
        ORDER BY m.run_id IS NOT NULL, coalesce(c.revision, 0) DESC, c.rank + c.file_row DESC
    ) AS standing
FROM candidate AS c
LEFT JOIN moved AS m ON c.run_id = m.run_id AND c.file_id = m.file_id;

CREATE OR REPLACE TEMP TABLE version AS
SELECT DISTINCT
    run_id,
    first_value(run_id) OVER (PARTITION BY name ORDER BY standing) AS winner_id,
    first_value(file_id) OVER (PARTITION BY name ORDER BY standing) AS winner_file_id,
    first_value(test) OVER (PARTITION BY name ORDER BY standing) AS test
FROM pool;

DELETE FROM run
WHERE run_id IN (SELECT run_id FROM version);

DELETE FROM superseded.run
WHERE run_id IN (SELECT run_id FROM version);

INSERT INTO run BY NAME
SELECT * EXCLUDE (name, standing)
FROM pool
WHERE standing = 1;

-- A version that lost is kept as sent: stamps of the time when it stood would tell of the order of loading.
INSERT INTO superseded.run BY NAME
SELECT
    * EXCLUDE (
        name, standing, "at", counts, void_reason, attempt, production_date, shift,
        kind, model, line, build_seq, earliest_at
    )
    REPLACE (
        vin_sent AS vin, started_at_sent AS started_at, ended_at_sent AS ended_at, result_sent AS result
    )
FROM pool
WHERE standing > 1;

INSERT INTO touched_unit
SELECT vin_sent, started_at_sent FROM pool
UNION ALL
SELECT vin, started_at_sent FROM pool;
