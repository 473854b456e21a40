-- Runs of the units in scope, with clock offsets and corrections applied (rules 1, 3, 17)
-- One row is a run of a unit in scope. Writes: work_run. Parameter: first_run_id, a bound that holds them all.
-- Reads: scope, run, correction, clock_offset, test_definition, file_rank, twin.
CREATE OR REPLACE TEMP TABLE work_run AS
WITH mended AS (
    SELECT
        c.run_id,
        max_by(c.value, c.made_at) FILTER (c.field = 'vin') AS vin,
        max_by(c.value, c.made_at) FILTER (c.field = 'result') AS result,
        max_by(c.value, c.made_at) FILTER (c.field = 'started_at') AS started_at,
        max_by(c.value, c.made_at) FILTER (c.field = 'ended_at') AS ended_at
    FROM correction AS c
    WHERE c.run_id IS NOT NULL
    GROUP BY c.run_id
),

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

told AS (
    SELECT
        r.*,
        m.vin AS vin_mended,
        m.result AS result_mended,
        try_cast(m.started_at AS TIMESTAMPTZ) AS started_at_mended,
        try_cast(m.ended_at AS TIMESTAMPTZ) AS ended_at_mended,
        to_microseconds(cast(coalesce(o.seconds, 0) * 1000000 AS BIGINT)) AS clock_lag
    FROM run AS r
    LEFT JOIN mended AS m ON r.run_id = m.run_id
    LEFT JOIN clock_offset AS o
        ON
            r.station = o.station
            AND r.started_at_sent >= o.valid_from
            AND (o.valid_to IS NULL OR r.started_at_sent < o.valid_to)
    WHERE r.run_id >= $first_run_id AND r.vin IN (SELECT vin FROM scope)
),

timed AS (
    SELECT
        *,
        coalesce(started_at_mended, started_at_sent + clock_lag) AS started,
        coalesce(ended_at_mended, ended_at_sent + clock_lag) AS ended
    FROM told
)

SELECT
    t.run_id,
    coalesce(t.vin_mended, t.vin_sent) AS vin,
    t.test,
    t.started AS started_at,
    t.ended AS ended_at,
    coalesce(t.result_mended, t.result_sent) AS result,
    coalesce(t.ended, t.started + to_microseconds(cast(d.length_seconds * 1000000 AS BIGINT))) AS "at",
    t.last_step,
    w.run_id IS NOT NULL AS doubled
FROM timed AS t
LEFT JOIN doubled AS w ON t.run_id = w.run_id AND t.file_id = w.file_id
INNER JOIN test_definition AS d ON t.test = d.test;
