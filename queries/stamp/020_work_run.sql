-- Runs of the units in scope, with clock offsets and corrections applied (rules 1, 3, 17)
-- One row is a run of a unit in scope; key is unit and test in one number, sent_key that of the VIN it was sent for;
-- mended: what was sent may not stand, and vin is told. Writes: work_run, several.
-- Reads: known_run, scope, correction, clock_offset, test_definition. Parameter: first_run_id.
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

-- A run may stand under another VIN than it was sent for.
known AS (
    SELECT *, CASE WHEN vin <> vin_sent THEN vin_sent END AS strayed_from
    FROM known_run
    WHERE run_id >= $first_run_id
),

timed AS (
    SELECT
        r.run_id,
        r.file_id,
        r.test,
        r.last_step,
        coalesce(m.vin, r.strayed_from) AS vin,
        r.strayed_from IS NOT NULL OR m.run_id IS NOT NULL OR o.station IS NOT NULL OR r.result <> r.result_sent
        OR r.started_at <> r.started_at_sent OR r.ended_at IS DISTINCT FROM r.ended_at_sent AS mended,
        coalesce(c.unit_no, s.unit_no) AS sent_no,
        coalesce(m.unit_no, c.unit_no, s.unit_no) AS unit_no,
        coalesce(m.result, r.result_sent) AS result,
        coalesce(m.started_at, r.started_at_sent + to_microseconds(cast(coalesce(o.seconds, 0) * 1000000 AS BIGINT)))
            AS started_at,
        coalesce(m.ended_at, r.ended_at_sent + to_microseconds(cast(coalesce(o.seconds, 0) * 1000000 AS BIGINT)))
            AS ended_at
    FROM known AS r
    INNER JOIN scope AS s ON r.vin = s.vin
    LEFT JOIN scope AS c ON r.strayed_from = c.vin
    LEFT JOIN placed AS m ON r.run_id = m.run_id
    LEFT JOIN clock_offset AS o
        ON
            r.station = o.station
            AND r.started_at_sent >= o.valid_from
            AND (o.valid_to IS NULL OR r.started_at_sent < o.valid_to)
)

SELECT
    t.run_id,
    t.file_id,
    t.vin,
    t.mended,
    t.unit_no,
    t.unit_no * 256 + d.position AS key,
    t.sent_no * 256 + d.position AS sent_key,
    t.test,
    t.started_at,
    t.ended_at,
    t.result,
    coalesce(t.ended_at, t.started_at + to_microseconds(cast(d.length_seconds * 1000000 AS BIGINT))) AS "at",
    t.last_step
FROM timed AS t
INNER JOIN test_definition AS d ON t.test = d.test;

-- Most units have one run of a test: what is asked of several runs is asked of these alone.
CREATE OR REPLACE TEMP TABLE several AS
SELECT key
FROM work_run
GROUP BY key
HAVING count(*) > 1;
