-- When a unit became clear in a test, and what a release covers (clear of DEVELOPERS.md, rule 14)
-- One row is a unit and test. Writes: work_repair, work_disturb, work_clear, work_release.
-- Reads: work_test, stamped_run, repair, disturbs, work_event.
CREATE OR REPLACE TEMP TABLE work_repair AS
SELECT *, coalesce(ended_at, started_at, entered_at) AS repaired_at
FROM repair
WHERE vin IN (SELECT vin FROM scope);

CREATE OR REPLACE TEMP TABLE work_disturb AS
SELECT DISTINCT
    r.vin,
    d.test,
    r.repair_id,
    r.action,
    coalesce(r.started_at, r.entered_at, r.ended_at) AS begins_at,
    coalesce(r.ended_at, TIMESTAMPTZ 'infinity') AS ends_at
FROM work_repair AS r
INNER JOIN disturbs AS d
    ON CASE d.field WHEN 'action' THEN r.action WHEN 'code' THEN r.code WHEN 'owner_area' THEN r.owner_area END = d.value;

CREATE OR REPLACE TEMP TABLE work_clear AS
WITH disturbed AS (
    SELECT
        vin,
        test,
        max(ends_at) AS until,
        max_by(action, ends_at) AS action,
        max_by(begins_at, ends_at) AS begins_at
    FROM work_disturb
    GROUP BY vin, test
),

stopped AS (
    SELECT vin, test, max(attempt) AS attempt
    FROM stamped_run
    WHERE counts AND result <> 'pass'
    GROUP BY vin, test
)

SELECT
    r.vin,
    r.test,
    max("at") FILTER (r.result = 'pass') AS last_pass_at,
    min("at") FILTER (r.attempt > coalesce(s.attempt, 0) AND (d.until IS NULL OR d.until <= r."at")) AS clear_at,
    min("at") FILTER (
        r.result <> 'pass' AND r.attempt > coalesce((
            SELECT max(p.attempt) FROM stamped_run AS p
            WHERE p.vin = r.vin AND p.test = r.test AND p.counts AND p.result = 'pass'
        ), 0)
    ) AS failing_since,
    max(d.until) AS disturbed_until,
    max(d.action) AS disturbed_by,
    max(d.begins_at) AS disturbed_since
FROM stamped_run AS r
LEFT JOIN stopped AS s ON r.vin = s.vin AND r.test = s.test
LEFT JOIN disturbed AS d ON r.vin = d.vin AND r.test = d.test
WHERE r.counts
GROUP BY r.vin, r.test;

-- A release covers what the unit lacked at it; a later counted fail or a return opens it again.
CREATE OR REPLACE TEMP TABLE work_release AS
WITH given AS (
    SELECT e.vin, e."at", e.reference
    FROM work_event AS e
    WHERE
        e.kind = 'release' AND e.entered_by IS NOT NULL AND e.reference IS NOT NULL
        AND NOT EXISTS (
            SELECT 1 FROM work_event AS b
            WHERE b.vin = e.vin AND b.kind = 'return' AND b."at" > e."at"
        )
),

stood AS (
    SELECT
        g.vin,
        t.test,
        g."at",
        g.reference,
        max(r."at") FILTER (r."at" <= g."at") AS last_at,
        max_by(r.result, r.attempt) FILTER (r."at" <= g."at") AS last_result,
        bool_or(r."at" > g."at" AND r.result <> 'pass') AS failed_later
    FROM given AS g
    INNER JOIN work_test AS t ON g.vin = t.vin
    LEFT JOIN stamped_run AS r ON t.vin = r.vin AND t.test = r.test AND r.counts
    GROUP BY g.vin, t.test, g."at", g.reference
)

SELECT s.vin, s.test, max_by(s.reference, s."at") AS reference, max(s."at") AS released_at
FROM stood AS s
WHERE
    NOT coalesce(s.failed_later, false)
    AND (
        s.last_result IS DISTINCT FROM 'pass'
        OR EXISTS (
            SELECT 1 FROM work_disturb AS d
            WHERE d.vin = s.vin AND d.test = s.test AND d.ends_at > s.last_at AND d.begins_at <= s."at"
        )
    )
GROUP BY s.vin, s.test;
