-- Versions of runs that equal one of another file but for exactly one hour (rule 2)
-- One row is a version and its twin in an earlier file. What an even earlier file told of the same run is no re-export,
-- so that a daily file that grows never doubts its own rows.
-- Writes: double_pair, twin for the units in scope; touched_unit for other units of pairs of files that became or ceased to be
-- doubles. Gives: their number. Reads: known_run, scope, work_run, several, test_definition, finding, superseded,
-- file_rank. Parameter: first_run_id.
-- Three or more runs that one file tells as another does, but for exactly one hour, are doubles.
CREATE OR REPLACE TEMP VIEW double_pair AS
SELECT file_id, twin_file_id, step_seconds
FROM twin
GROUP BY file_id, twin_file_id, step_seconds
HAVING count(DISTINCT run_id) >= 3;

CREATE OR REPLACE TEMP TABLE pair_before AS
SELECT *
FROM double_pair;

CREATE OR REPLACE TEMP TABLE lost_version AS
SELECT s.run_id, s.file_id, s.vin_sent, s.test, s.station, s.run_ref, s.result_sent, c.unit_no * 256 + d.position AS key
FROM superseded.run AS s
INNER JOIN scope AS c ON s.vin_sent = c.vin
INNER JOIN test_definition AS d ON s.test = d.test
WHERE s.run_id >= $first_run_id;

-- Only where a unit was sent two versions of one test can one be the twin of another.
CREATE OR REPLACE TEMP TABLE twin_pair AS
WITH strayed AS (
    -- Runs sent for a unit in scope that stand under another one, which need not be.
    SELECT r.run_id, c.unit_no * 256 + d.position AS key
    FROM known_run AS r
    INNER JOIN scope AS c ON r.vin_sent = c.vin
    INNER JOIN test_definition AS d ON r.test = d.test
    WHERE r.run_id >= $first_run_id AND r.vin <> r.vin_sent
),

near_key AS (
    SELECT key FROM several
    UNION
    SELECT key FROM strayed
    UNION
    SELECT sent_key AS key FROM work_run WHERE sent_key <> key
    UNION
    SELECT key FROM lost_version
),

standing AS (
    SELECT r.run_id, r.file_id, r.vin_sent, r.test, r.station, r.run_ref, r.result_sent
    FROM known_run AS r
    WHERE
        r.run_id >= $first_run_id
        AND r.run_id IN (
            SELECT w.run_id FROM work_run AS w INNER JOIN near_key AS k ON w.sent_key = k.key
            UNION
            SELECT s.run_id FROM strayed AS s
        )
),

near AS (
    SELECT vin_sent, test, station, run_id >> 30 AS second, result_sent FROM standing
    UNION
    SELECT vin_sent, test, station, run_id >> 30 AS second, result_sent FROM lost_version
),

-- Most runs have nothing an hour away: the versions of those are never looked at.
hour AS (
    SELECT DISTINCT a.vin_sent, a.test, a.station, unnest([a.second, b.second]) AS second
    FROM near AS a
    INNER JOIN near AS b
        ON
            a.vin_sent = b.vin_sent AND a.test = b.test AND a.station = b.station
            AND a.result_sent = b.result_sent AND a.second + 3600 = b.second
),

version AS (
    SELECT run_id, run_id AS part_id, file_id, vin_sent, test, station, run_ref, result_sent
    FROM standing
    UNION ALL
    SELECT s.run_id, coalesce(r.run_id, s.run_id) AS part_id, s.file_id, s.vin_sent, s.test, s.station, s.run_ref, s.result_sent
    FROM lost_version AS s
    LEFT JOIN standing AS r ON s.station = r.station AND s.run_ref = r.run_ref
),

found AS (
    SELECT run_id, file_id, code, zone, step FROM finding WHERE run_id >= $first_run_id AND file_id IS NOT NULL
    UNION ALL
    SELECT run_id, file_id, code, zone, step FROM superseded.finding WHERE run_id >= $first_run_id
),

alike AS (
    SELECT
        v.run_id,
        v.file_id,
        v.vin_sent,
        v.test,
        v.station,
        v.run_ref,
        v.result_sent,
        v.run_id >> 30 AS second,
        min(k.rank) AS rank,
        coalesce(string_agg(
            concat_ws('|', f.code, coalesce(f.zone, ''), coalesce(f.step, '')), ';' ORDER BY f.code, f.zone, f.step
        ), '') AS findings
    FROM version AS v
    INNER JOIN hour AS h
        ON v.vin_sent = h.vin_sent AND v.test = h.test AND v.station = h.station AND v.run_id >> 30 = h.second
    INNER JOIN file_rank AS k ON v.file_id = k.file_id
    LEFT JOIN found AS f ON v.part_id = f.run_id AND v.file_id = f.file_id
    GROUP BY v.run_id, v.file_id, v.vin_sent, v.test, v.station, v.run_ref, v.result_sent
),

told AS (
    SELECT *, min(rank) OVER (PARTITION BY run_id, result_sent, findings) AS told_rank
    FROM alike
)

SELECT
    l.run_id,
    l.file_id,
    e.run_id AS twin_run_id,
    e.file_id AS twin_file_id,
    (l.second - e.second) AS step_seconds,
    false AS by_name,
    l.vin_sent AS vin
FROM told AS l
INNER JOIN told AS e
    ON
        l.vin_sent = e.vin_sent AND l.test = e.test AND l.station = e.station
        AND l.result_sent = e.result_sent AND l.findings = e.findings
        AND l.second - e.second IN (3600, -3600)
WHERE e.rank < l.told_rank AND (l.run_ref IS NULL OR e.run_ref IS NULL OR l.run_ref <> e.run_ref);

DELETE FROM twin
WHERE NOT by_name AND vin IN (SELECT vin FROM scope);

INSERT INTO twin BY NAME
SELECT *
FROM twin_pair;

CREATE OR REPLACE TEMP TABLE twin_moved AS
WITH changed AS (
    SELECT * FROM pair_before AS b
    ANTI JOIN double_pair AS a USING (file_id, twin_file_id, step_seconds)
    UNION ALL
    SELECT * FROM double_pair AS a
    ANTI JOIN pair_before AS b USING (file_id, twin_file_id, step_seconds)
)

SELECT r.vin, min(r.started_at_sent) AS earliest_at
FROM twin AS t
INNER JOIN changed AS c USING (file_id, twin_file_id, step_seconds)
INNER JOIN run AS r ON t.run_id = r.run_id
WHERE r.vin NOT IN (SELECT vin FROM scope)
GROUP BY r.vin;

INSERT INTO touched_unit
SELECT *
FROM twin_moved;

SELECT count(*) AS moved
FROM twin_moved;
