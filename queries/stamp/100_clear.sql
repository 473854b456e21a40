-- When a unit became clear in a test, and what a release covers (clear of DEVELOPERS.md, rule 14)
-- One row is a unit and test whose story is longer than one pass. Writes: work_disturb, work_clear, work_release.
-- Reads: work_test, stamped_run, several, work_repair, disturbs, test_definition, work_event.
CREATE OR REPLACE TEMP TABLE work_disturb AS
SELECT DISTINCT
    r.unit_no * 256 + t.position AS key,
    r.repair_id,
    r.action,
    coalesce(r.started_at, r.entered_at, r.ended_at) AS begins_at,
    coalesce(r.ended_at, TIMESTAMPTZ 'infinity') AS ends_at
FROM work_repair AS r
INNER JOIN disturbs AS d
    ON CASE d.field WHEN 'action' THEN r.action WHEN 'code' THEN r.code WHEN 'owner_area' THEN r.owner_area END = d.value
INNER JOIN test_definition AS t ON d.test = t.test;

CREATE OR REPLACE TEMP TABLE work_clear AS
WITH longer AS (
    SELECT key FROM several
    UNION
    SELECT key FROM work_disturb
    UNION
    SELECT key FROM stamped_run WHERE counts AND result <> 'pass'
),

counted AS (
    SELECT r.key, r.attempt, r.result, r."at"
    FROM stamped_run AS r
    SEMI JOIN longer AS l ON r.key = l.key
    WHERE r.counts
),

disturbed AS (
    SELECT
        key,
        max(ends_at) AS until,
        max_by(action, (ends_at, repair_id)) AS action,
        min(begins_at) FILTER (ends_at = TIMESTAMPTZ 'infinity') AS begins_at
    FROM work_disturb
    GROUP BY key
),

turn AS (
    SELECT
        key,
        max(attempt) FILTER (result <> 'pass') AS last_fail,
        max(attempt) FILTER (result = 'pass') AS last_pass
    FROM counted
    GROUP BY key
)

SELECT
    c.key,
    min(c."at") FILTER (c.attempt > coalesce(t.last_fail, 0) AND (d.until IS NULL OR d.until <= c."at")) AS clear_at,
    min(c."at") FILTER (c.result <> 'pass' AND c.attempt > coalesce(t.last_pass, 0)) AS failing_since,
    max(d.until) AS disturbed_until,
    max(d.action) AS disturbed_by,
    max(d.begins_at) AS disturbed_since
FROM counted AS c
INNER JOIN turn AS t ON c.key = t.key
LEFT JOIN disturbed AS d ON c.key = d.key
GROUP BY c.key;

-- A release covers what the unit lacked at it; a later counted fail or a return opens it again.
CREATE OR REPLACE TEMP TABLE work_release AS
WITH given AS (
    SELECT e.unit_no, e."at", e.reference
    FROM work_event AS e
    WHERE
        e.kind = 'release' AND e.entered_by IS NOT NULL AND e.reference IS NOT NULL
        AND NOT EXISTS (
            SELECT 1 FROM work_event AS b
            WHERE b.unit_no = e.unit_no AND b.kind = 'return' AND b."at" > e."at"
        )
),

stood AS (
    SELECT
        t.key,
        g."at",
        g.reference,
        max(r."at") FILTER (r."at" <= g."at") AS last_at,
        max_by(r.result, r.attempt) FILTER (r."at" <= g."at") AS last_result,
        bool_or(r."at" > g."at" AND r.result <> 'pass') AS failed_later
    FROM given AS g
    INNER JOIN work_test AS t ON g.unit_no = t.unit_no
    LEFT JOIN stamped_run AS r ON t.key = r.key AND r.counts
    GROUP BY t.key, g."at", g.reference
)

SELECT s.key, max_by(s.reference, s."at") AS reference, max(s."at") AS released_at
FROM stood AS s
WHERE
    NOT coalesce(s.failed_later, false)
    AND (
        s.last_result IS DISTINCT FROM 'pass'
        OR EXISTS (
            SELECT 1 FROM work_disturb AS d
            WHERE d.key = s.key AND d.ends_at > s.last_at AND d.begins_at <= s."at"
        )
    )
GROUP BY s.key;
