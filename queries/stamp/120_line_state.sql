-- How each unit went through the line (rule 11), and the stamped unit
-- One row is a unit in scope. Writes: unit.
-- Reads: work_unit, unit_shift, work_status, stamped_run, work_repair, work_event. Parameter: earliest_at.
DELETE FROM unit
WHERE vin IN (SELECT vin FROM scope);

INSERT INTO unit BY NAME
WITH stood AS (
    SELECT
        vin,
        bool_and(first_result = 'pass') AS all_passed,
        bool_or(first_result <> 'pass') AS any_failed,
        bool_or(first_result IS NULL) AS any_open,
        CASE WHEN count(clear_at) = count(*) THEN max(clear_at) ELSE TIMESTAMPTZ 'infinity' END AS clear_at
    FROM work_status
    WHERE required
    GROUP BY vin
),

begun AS (
    SELECT vin, min(started_at) AS started_at
    FROM stamped_run
    GROUP BY vin
),

repaired AS (
    SELECT DISTINCT r.vin
    FROM work_repair AS r
    INNER JOIN begun AS b ON r.vin = b.vin
    INNER JOIN stood AS s ON r.vin = s.vin
    WHERE r.class IS DISTINCT FROM 'none' AND r.repaired_at >= b.started_at AND r.repaired_at <= s.clear_at
),

-- A bypass of a required test, or a scrap.
let_by AS (
    SELECT r.vin
    FROM stamped_run AS r
    INNER JOIN work_status AS w ON r.vin = w.vin AND r.test = w.test
    WHERE r.result = 'bypass' AND w.required
    UNION
    SELECT vin FROM work_event WHERE kind = 'scrap'
)

SELECT
    u.*,
    s.line_date,
    s.line_shift,
    CASE
        WHEN t.all_passed AND NOT t.any_open AND r.vin IS NULL THEN 'went_through'
        WHEN t.any_failed OR r.vin IS NOT NULL OR l.vin IS NOT NULL THEN 'failed_one'
        ELSE 'undecided'
    END AS line_state
FROM work_unit AS u
LEFT JOIN unit_shift AS s ON u.vin = s.vin
LEFT JOIN stood AS t ON u.vin = t.vin
LEFT JOIN repaired AS r ON u.vin = r.vin
LEFT JOIN let_by AS l ON u.vin = l.vin;

DELETE FROM touched_unit;
