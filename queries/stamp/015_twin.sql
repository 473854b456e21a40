-- Runs that equal another but for exactly one hour (rule 2)
-- One row is a run and the run told before it. Which of two was told first goes by the first file that told of each, so
-- that a daily file that grows does not make its own rows late. Three or more between two files make doubles.
-- Writes: twin for the units in scope; touched_unit for other units of pairs of files whose count changed. Gives: their number.
-- Reads: scope, run, superseded.run, finding, file_rank. Parameter: first_run_id.
CREATE OR REPLACE TEMP TABLE twin_before AS
SELECT told_by, twin_told_by, count(*) AS runs
FROM twin
GROUP BY told_by, twin_told_by;

CREATE OR REPLACE TEMP TABLE twin_run AS
SELECT run_id, vin_sent, test, station, result_sent, run_ref, run_id >> 30 AS started_second
FROM run
WHERE
    run_id >= $first_run_id
    AND (vin IN (SELECT vin FROM scope) OR vin_sent IN (SELECT vin FROM scope));

CREATE OR REPLACE TEMP TABLE twin_pair AS
WITH pair AS (
    SELECT e.run_id AS early_id, l.run_id AS late_id, e.vin_sent
    FROM twin_run AS e
    INNER JOIN twin_run AS l
        ON
            e.vin_sent = l.vin_sent AND e.test = l.test AND e.station = l.station
            AND e.started_second + 3600 = l.started_second
    WHERE e.result_sent = l.result_sent AND (e.run_ref IS NULL OR e.run_ref IS DISTINCT FROM l.run_ref)
),

seen AS (
    SELECT
        f.run_id,
        string_agg(concat_ws('|', f.code, coalesce(f.zone, ''), coalesce(f.step, '')), ';' ORDER BY f.code, f.zone, f.step)
            AS findings
    FROM finding AS f
    WHERE
        f.run_id >= $first_run_id AND f.file_id IS NOT NULL
        AND f.run_id IN (SELECT early_id FROM pair UNION ALL SELECT late_id FROM pair)
    GROUP BY f.run_id
),

version AS (
    SELECT run_id, file_id FROM run WHERE run_id >= $first_run_id
    UNION ALL
    SELECT run_id, file_id FROM superseded.run WHERE run_id >= $first_run_id
),

told AS (
    SELECT v.run_id, min(f.rank) AS rank, min_by(v.file_id, f.rank) AS told_by
    FROM version AS v
    INNER JOIN file_rank AS f ON v.file_id = f.file_id
    WHERE v.run_id IN (SELECT early_id FROM pair UNION ALL SELECT late_id FROM pair)
    GROUP BY v.run_id
)

SELECT
    CASE WHEN e.rank > l.rank THEN p.early_id ELSE p.late_id END AS run_id,
    CASE WHEN e.rank > l.rank THEN p.late_id ELSE p.early_id END AS twin_run_id,
    CASE WHEN e.rank > l.rank THEN e.told_by ELSE l.told_by END AS told_by,
    CASE WHEN e.rank > l.rank THEN l.told_by ELSE e.told_by END AS twin_told_by,
    p.vin_sent AS vin
FROM pair AS p
INNER JOIN told AS e ON p.early_id = e.run_id
INNER JOIN told AS l ON p.late_id = l.run_id
LEFT JOIN seen AS es ON p.early_id = es.run_id
LEFT JOIN seen AS ls ON p.late_id = ls.run_id
WHERE e.told_by <> l.told_by AND es.findings IS NOT DISTINCT FROM ls.findings;

DELETE FROM twin
WHERE NOT by_name AND vin IN (SELECT vin_sent FROM twin_run UNION ALL SELECT vin FROM scope);

INSERT INTO twin BY NAME
SELECT *, false AS by_name
FROM twin_pair;

CREATE OR REPLACE TEMP TABLE twin_moved AS
WITH twin_after AS (
    SELECT told_by, twin_told_by, count(*) AS runs
    FROM twin
    GROUP BY told_by, twin_told_by
),

changed AS (
    SELECT coalesce(a.told_by, b.told_by) AS told_by, coalesce(a.twin_told_by, b.twin_told_by) AS twin_told_by
    FROM twin_after AS a
    FULL JOIN twin_before AS b ON a.told_by = b.told_by AND a.twin_told_by = b.twin_told_by
    WHERE (coalesce(a.runs, 0) >= 3) <> (coalesce(b.runs, 0) >= 3)
)

SELECT r.vin, min(r.started_at_sent) AS earliest_at
FROM twin AS t
INNER JOIN changed AS c ON t.told_by = c.told_by AND t.twin_told_by = c.twin_told_by
INNER JOIN run AS r ON t.run_id = r.run_id
WHERE r.vin NOT IN (SELECT vin FROM scope)
GROUP BY r.vin;

INSERT INTO touched_unit
SELECT *
FROM twin_moved;

SELECT count(*) AS moved
FROM twin_moved;
