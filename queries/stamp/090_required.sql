-- Which tests the plan requires of each unit (rules 4, 10)
-- One row is a unit and a test that it had a run of or that is required. Writes: work_attribute, work_test.
-- Reads: work_unit, stamped_run, attribute, applies, test_plan, test_definition, file_rank. Parameter: earliest_at.
CREATE OR REPLACE TEMP TABLE work_attribute AS
SELECT
    a.vin,
    a.name,
    max_by(
        coalesce(a.text_value, cast(a.number_value AS VARCHAR)),
        (coalesce(a."at", TIMESTAMPTZ '-infinity'), f.rank + a.file_row)
    ) AS value
FROM attribute AS a
INNER JOIN file_rank AS f ON a.file_id = f.file_id
WHERE
    (a."at" IS NULL OR a."at" >= $earliest_at)
    AND a.name IN (SELECT name FROM applies WHERE owner LIKE 'plan:%')
    AND a.vin IN (SELECT vin FROM scope)
GROUP BY a.vin, a.name
UNION ALL
SELECT vin, 'model' AS name, model AS value FROM work_unit
UNION ALL
SELECT vin, 'line' AS name, line AS value FROM work_unit;

CREATE OR REPLACE TEMP TABLE work_test AS
WITH ran AS (
    SELECT
        vin,
        test,
        max(attempt) AS attempts,
        max(run_id) FILTER (attempt = 1) AS first_run_id,
        max("at") FILTER (attempt = 1) AS first_at,
        max_by(run_id, attempt) AS last_run_id,
        max_by(result, attempt) AS last_result,
        max(result) FILTER (attempt = 1) AS first_result,
        max_by(run_id, ("at", started_at, run_id)) FILTER (NOT counts) AS void_run_id,
        max_by(void_reason, ("at", started_at, run_id)) FILTER (NOT counts) AS void_reason,
        max("at") FILTER (NOT counts) AS void_at
    FROM stamped_run
    GROUP BY vin, test
),

planned AS (
    SELECT
        u.vin,
        d.test,
        r.* EXCLUDE (vin, test),
        r.vin IS NOT NULL AS was_run,
        coalesce(r.first_at, r.void_at, u.line_off_at, TIMESTAMPTZ 'infinity') AS planned_at
    FROM work_unit AS u
    CROSS JOIN test_definition AS d
    LEFT JOIN ran AS r ON u.vin = r.vin AND d.test = r.test
),

-- A clause fails where the unit's value is known and is none of the clause's.
clause AS (
    SELECT u.vin, a.owner, a.clause, bool_or(w.value IS NULL OR w.value = a.value) AS held
    FROM work_unit AS u
    CROSS JOIN applies AS a
    LEFT JOIN work_attribute AS w ON u.vin = w.vin AND a.name = w.name
    WHERE a.owner LIKE 'plan:%'
    GROUP BY u.vin, a.owner, a.clause
),

exempt AS (
    SELECT DISTINCT vin, owner
    FROM clause
    WHERE NOT held
)

SELECT
    p.* EXCLUDE (was_run, planned_at),
    coalesce(t.test IS NOT NULL AND e.vin IS NULL AND (t.required = 'every' OR p.was_run), false) AS required
FROM planned AS p
LEFT JOIN test_plan AS t
    ON
        p.test = t.test AND p.planned_at >= t.valid_from
        AND (t.valid_to IS NULL OR p.planned_at < t.valid_to)
LEFT JOIN exempt AS e ON p.vin = e.vin AND t.owner = e.owner
WHERE p.was_run OR (t.required = 'every' AND e.vin IS NULL);
