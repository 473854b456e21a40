-- Runs of the units in scope, with clock offsets and corrections applied (rules 1, 3, 17)
-- One row is a run of a unit in scope; key is unit and test in one number; mended: what was sent may not stand, and
-- vin is told. Writes: work_run, several.
-- Reads: scope_run, scope, correction, clock_offset, test_definition, twin.
CREATE OR REPLACE TEMP TABLE work_run AS
WITH mended AS (
    SELECT
        c.run_id,
        max_by(c.value, c.made_at) FILTER (c.field = 'vin') AS vin,
        max_by(c.value, c.made_at) FILTER (c.field = 'result') AS result,
        try_cast(max_by(c.value, c.made_at) FILTER (c.field = 'started_at') AS TIMESTAMPTZ) AS started_at,
        try_cast(max_by(c.value, c.made_at) FILTER (c.field = 'ended_at') AS TIMESTAMPTZ) AS ended_at
    FROM correction AS c
    WHERE c.run_id IS NOT NULL
    GROUP BY c.run_id
),

placed AS (
    SELECT m.*, s.unit_no
    FROM mended AS m
    LEFT JOIN scope AS s ON m.vin = s.vin
),

-- Rule 2: three or more runs that one file tells as another does, but for exactly one hour.
doubled AS (
    SELECT DISTINCT t.run_id, t.file_id
    FROM twin AS t
    INNER JOIN (
        SELECT file_id, twin_file_id, step_seconds
        FROM twin
        GROUP BY file_id, twin_file_id, step_seconds
        HAVING count(DISTINCT run_id) >= 3
    ) AS pair USING (file_id, twin_file_id, step_seconds)
),

-- Runs that stand under another VIN than they were sent for.
strayed AS (
    SELECT r.run_id, s.unit_no
    FROM scope_run AS r
    INNER JOIN scope AS s ON r.strayed_from = s.vin
),

timed AS (
    SELECT
        r.run_id,
        r.file_id,
        r.test,
        r.last_step,
        coalesce(m.vin, r.strayed_from) AS vin,
        r.strayed_from IS NOT NULL OR m.run_id IS NOT NULL OR o.station IS NOT NULL OR r.mended AS mended,
        coalesce(m.unit_no, c.unit_no, r.unit_no) AS unit_no,
        coalesce(m.result, r.result_sent) AS result,
        coalesce(m.started_at, r.started_at_sent + to_microseconds(cast(coalesce(o.seconds, 0) * 1000000 AS BIGINT)))
            AS started_at,
        coalesce(m.ended_at, r.ended_at_sent + to_microseconds(cast(coalesce(o.seconds, 0) * 1000000 AS BIGINT)))
            AS ended_at
    FROM scope_run AS r
    LEFT JOIN placed AS m ON r.run_id = m.run_id
    LEFT JOIN strayed AS c ON r.run_id = c.run_id
    LEFT JOIN clock_offset AS o
        ON
            r.station = o.station
            AND r.started_at_sent >= o.valid_from
            AND (o.valid_to IS NULL OR r.started_at_sent < o.valid_to)
)

SELECT
    t.run_id,
    t.vin,
    t.mended,
    t.unit_no,
    t.unit_no * 256 + d.position AS key,
    t.test,
    t.started_at,
    t.ended_at,
    t.result,
    coalesce(t.ended_at, t.started_at + to_microseconds(cast(d.length_seconds * 1000000 AS BIGINT))) AS "at",
    t.last_step,
    w.run_id IS NOT NULL AS doubled
FROM timed AS t
INNER JOIN test_definition AS d ON t.test = d.test
LEFT JOIN doubled AS w ON t.run_id = w.run_id AND t.file_id = w.file_id;

-- Most units have one run of a test: what is asked of several runs is asked of these alone.
CREATE OR REPLACE TEMP TABLE several AS
SELECT key
FROM work_run
GROUP BY key
HAVING count(*) > 1;
