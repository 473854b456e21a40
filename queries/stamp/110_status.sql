-- What each unit stands at in each test (unit_status; rules 4, 9, 14)
-- One row is a unit and test. Writes: work_status, unit_status.
-- Reads: work_test, work_clear, work_release, work_event, stamped_run, work_unit. Parameter: earliest_at.
CREATE OR REPLACE TEMP TABLE work_status AS
WITH stood AS (
    SELECT
        vin,
        max("at") FILTER (kind = 'scrap') AS scrapped_at,
        max_by(kind, "at") FILTER (kind IN ('divert', 'return')) = 'divert' AS diverted,
        max_by(kind, "at") FILTER (kind IN ('hold', 'unhold')) = 'hold' AS held,
        max("at") FILTER (kind = 'hold') AS held_at
    FROM work_event
    GROUP BY vin
),

told AS (
    SELECT
        t.*,
        c.clear_at,
        c.failing_since,
        c.disturbed_by,
        CASE WHEN c.disturbed_until < TIMESTAMPTZ 'infinity' THEN c.disturbed_until ELSE c.disturbed_since END AS disturbed_at,
        r.reference,
        s.held_at,
        u.line_off_at,
        u.earliest_at,
        CASE
            WHEN s.scrapped_at IS NOT NULL THEN 'scrapped'
            WHEN s.diverted THEN 'diverted'
            WHEN c.clear_at IS NOT NULL THEN 'passed'
            WHEN r.vin IS NOT NULL THEN 'released'
            WHEN s.held THEN 'held'
            WHEN t.last_result <> 'pass' THEN 'failed'
            WHEN t.last_result = 'pass' THEN 'disturbed'
            WHEN t.void_reason = 'bypass' THEN 'bypassed'
            WHEN t.void_reason = 'missing' THEN 'pending'
            WHEN t.void_reason IS NOT NULL THEN 'void'
            ELSE 'untested'
        END AS status
    FROM work_test AS t
    INNER JOIN work_unit AS u ON t.vin = u.vin
    LEFT JOIN work_clear AS c ON t.vin = c.vin AND t.test = c.test
    LEFT JOIN work_release AS r ON t.vin = r.vin AND t.test = r.test
    LEFT JOIN stood AS s ON t.vin = s.vin
)

SELECT
    t.vin,
    t.test,
    t.required,
    coalesce(t.attempts, 0) AS attempts,
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
    s.production_date,
    s.shift,
    t.earliest_at
FROM told AS t
LEFT JOIN run_shift AS s ON coalesce(t.first_run_id, t.void_run_id) = s.run_id;

DELETE FROM unit_status
WHERE (earliest_at IS NULL OR earliest_at >= $earliest_at) AND vin IN (SELECT vin FROM scope);

INSERT INTO unit_status BY NAME
SELECT * FROM work_status;
