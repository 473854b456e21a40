-- Findings of the runs in scope, with the catalogue row valid at the run's end (rules 4, 6, 8)
-- One row is a finding as sent; an earlier stamp of UNSPECIFIED is left out. Writes: work_finding.
-- Reads: finding, work_run, defect_code, defect_condition. Parameter: first_run_id.
CREATE OR REPLACE TEMP TABLE work_finding AS
WITH sent AS (
    SELECT f.* EXCLUDE (test, vin, "at"), w.key, w.test, w."at"
    FROM finding AS f
    INNER JOIN work_run AS w ON f.run_id = w.run_id
    WHERE f.run_id >= $first_run_id AND f.file_id IS NOT NULL
),

code_at AS (
    SELECT DISTINCT code, test, "at"
    FROM sent
),

catalogue AS (
    SELECT a.code, a.test, a."at", c.owner_area
    FROM code_at AS a
    INNER JOIN defect_code AS c
        ON
            a.code = c.code
            AND (c.test IS NULL OR c.test = a.test)
            AND (c.valid_from IS NULL OR c.valid_from <= a."at")
            AND (c.valid_to IS NULL OR c.valid_to > a."at")
    QUALIFY row_number() OVER (
        PARTITION BY a.code, a.test, a."at"
        ORDER BY c.test IS NULL, c.valid_from DESC NULLS LAST
    ) = 1
),

-- defect_when: a comparison that a finding misses makes it an observation; a field that was not sent misses none.
missed AS (
    SELECT DISTINCT s.run_id, s.code, s.zone, s.step
    FROM sent AS s
    INNER JOIN defect_condition AS d ON s.test = d.test
    CROSS JOIN LATERAL (
        SELECT
            CASE d.name WHEN 'rating' THEN s.rating WHEN 'quantity' THEN coalesce(s.quantity, 1) END AS number,
            CASE d.name
                WHEN 'severity' THEN s.severity WHEN 'code' THEN s.code
                WHEN 'zone' THEN s.zone WHEN 'step' THEN s.step
            END AS text
    ) AS field
    WHERE NOT coalesce(
        CASE d.comparison
            WHEN '<=' THEN field.number <= d.number_value
            WHEN '<' THEN field.number < d.number_value
            WHEN '>=' THEN field.number >= d.number_value
            WHEN '>' THEN field.number > d.number_value
            WHEN '=' THEN coalesce(field.number = d.number_value, field.text = d.text_value)
            WHEN '!=' THEN coalesce(field.number <> d.number_value, field.text <> d.text_value)
        END, true
    )
)

SELECT
    s.run_id,
    s.key,
    s.code,
    s.zone,
    s.step,
    coalesce(c.owner_area = 'equipment', false) AS of_bench,
    m.run_id IS NOT NULL AS observed
FROM sent AS s
LEFT JOIN catalogue AS c ON s.code = c.code AND s.test = c.test AND s."at" = c."at"
LEFT JOIN missed AS m
    ON
        s.run_id = m.run_id AND s.code = m.code
        AND s.zone IS NOT DISTINCT FROM m.zone AND s.step IS NOT DISTINCT FROM m.step;
