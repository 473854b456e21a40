-- What each unit stands at in each test (unit_status; rules 4, 9, 14)
-- One row is a unit and test. Writes: work_cleared, unit_status.
-- Reads: work_test, work_clear, work_release, work_event, work_unit, unit_shift, proof_event. Parameter: earliest_at.
CREATE OR REPLACE TEMP VIEW work_cleared AS
SELECT
    t.*,
    -- One counted pass that nothing disturbed is clear from its end on.
    CASE WHEN c.key IS NULL AND t.last_result = 'pass' THEN t.first_at ELSE c.clear_at END AS clear_at,
    c.failing_since,
    c.disturbed_by,
    CASE WHEN c.disturbed_until < TIMESTAMPTZ 'infinity' THEN c.disturbed_until ELSE c.disturbed_since END AS disturbed_at
FROM work_test AS t
LEFT JOIN work_clear AS c ON t.key = c.key;

DELETE FROM unit_status
WHERE (earliest_at IS NULL OR earliest_at >= $earliest_at) AND vin IN (SELECT vin FROM scope);

INSERT INTO unit_status BY NAME
WITH stood AS (
    SELECT
        unit_no,
        max("at") FILTER (kind = 'scrap') AS scrapped_at,
        max_by(kind, "at") FILTER (kind IN ('divert', 'return')) = 'divert' AS diverted,
        max_by(kind, "at") FILTER (kind IN ('hold', 'unhold')) = 'hold' AS held,
        max("at") FILTER (kind = 'hold') AS held_at
    FROM work_event
    WHERE kind IN ('scrap', 'divert', 'return', 'hold', 'unhold')
    GROUP BY unit_no
),

asked AS (
    SELECT e.unit_no, min_by(e.kind, (e."at", e.kind)) AS kind, min(e."at") AS "at"
    FROM work_event AS e
    INNER JOIN proof_event AS p ON e.kind = p.kind
    GROUP BY e.unit_no
),

told AS (
    SELECT
        t.*,
        r.reference,
        s.held_at,
        u.vin,
        u.line_off_at,
        u.kind,
        u.earliest_at,
        CASE
            WHEN s.scrapped_at IS NOT NULL THEN 'scrapped'
            WHEN s.diverted THEN 'diverted'
            WHEN t.clear_at IS NOT NULL THEN 'passed'
            WHEN r.key IS NOT NULL THEN 'released'
            WHEN s.held THEN 'held'
            WHEN t.last_result <> 'pass' THEN 'failed'
            WHEN t.last_result = 'pass' THEN 'disturbed'
            WHEN t.void_reason = 'bypass' THEN 'bypassed'
            WHEN t.void_reason = 'missing' THEN 'pending'
            WHEN t.void_reason IS NOT NULL THEN 'void'
            ELSE 'untested'
        END AS status
    FROM work_cleared AS t
    INNER JOIN work_unit AS u ON t.unit_no = u.unit_no
    LEFT JOIN work_release AS r ON t.key = r.key
    LEFT JOIN stood AS s ON t.unit_no = s.unit_no
)

SELECT
    t.vin,
    t.test,
    t.required,
    t.attempts,
    t.first_run_id,
    t.first_result,
    t.last_run_id,
    t.last_result,
    t.clear_at,
    CASE t.status
        WHEN 'held' THEN t.held_at
        WHEN 'failed' THEN t.failing_since
        WHEN 'disturbed' THEN t.disturbed_at
        WHEN 'untested' THEN t.line_off_at
        WHEN 'bypassed' THEN t.void_at
        WHEN 'pending' THEN t.void_at
        WHEN 'void' THEN t.void_at
    END AS waiting_since,
    t.status,
    CASE t.status
        WHEN 'disturbed' THEN t.disturbed_by
        WHEN 'released' THEN t.reference
        WHEN 'bypassed' THEN t.void_reason
        WHEN 'pending' THEN t.void_reason
        WHEN 'void' THEN t.void_reason
    END AS reason,
    t.production_date,
    t.shift,
    t.kind,
    l.line_date,
    l.line_shift,
    a.kind AS asked_by,
    a."at" AS asked_at,
    t.earliest_at
FROM told AS t
LEFT JOIN unit_shift AS l ON t.unit_no = l.unit_no
LEFT JOIN asked AS a ON t.unit_no = a.unit_no AND t.clear_at IS NULL;
