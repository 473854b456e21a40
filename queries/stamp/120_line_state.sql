-- How each unit went through the line (rule 11), and the stamped unit
-- One row is a unit in scope. Writes: unit.
-- Reads: work_unit, unit_shift, work_cleared, work_test, stamped_run, work_repair, work_event. Parameter: earliest_at.
DELETE FROM unit
WHERE (earliest_at IS NULL OR earliest_at >= $earliest_at) AND vin IN (SELECT vin FROM scope);

INSERT INTO unit BY NAME
WITH stood AS (
    SELECT
        unit_no,
        bool_and(first_result = 'pass') AS all_passed,
        bool_or(first_result <> 'pass') AS any_failed,
        bool_or(first_result IS NULL) AS any_open,
        CASE WHEN count(clear_at) = count(*) THEN max(clear_at) ELSE TIMESTAMPTZ 'infinity' END AS clear_at
    FROM work_cleared
    WHERE required
    GROUP BY unit_no
),

begun AS (
    SELECT unit_no, min(started_at) AS started_at
    FROM stamped_run
    WHERE unit_no IN (SELECT unit_no FROM work_repair)
    GROUP BY unit_no
),

repaired AS (
    SELECT DISTINCT r.unit_no
    FROM work_repair AS r
    INNER JOIN begun AS b ON r.unit_no = b.unit_no
    INNER JOIN stood AS s ON r.unit_no = s.unit_no
    WHERE r.class IS DISTINCT FROM 'none' AND r.repaired_at >= b.started_at AND r.repaired_at <= s.clear_at
),

-- A bypass of a required test, or a scrap.
let_by AS (
    SELECT r.unit_no
    FROM stamped_run AS r
    INNER JOIN work_test AS w ON r.key = w.key
    WHERE r.result = 'bypass' AND w.required
    UNION
    SELECT unit_no FROM work_event WHERE kind = 'scrap'
)

SELECT
    u.* EXCLUDE (unit_no),
    s.line_date,
    s.line_shift,
    CASE
        WHEN t.all_passed AND NOT t.any_open AND r.unit_no IS NULL THEN 'went_through'
        WHEN t.any_failed OR r.unit_no IS NOT NULL OR l.unit_no IS NOT NULL THEN 'failed_one'
        ELSE 'undecided'
    END AS line_state
FROM work_unit AS u
LEFT JOIN unit_shift AS s ON u.unit_no = s.unit_no
LEFT JOIN stood AS t ON u.unit_no = t.unit_no
LEFT JOIN repaired AS r ON u.unit_no = r.unit_no
LEFT JOIN let_by AS l ON u.unit_no = l.unit_no;

DELETE FROM touched_unit;
