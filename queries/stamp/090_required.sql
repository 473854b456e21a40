-- Which tests the plan requires of each unit (rules 4, 10)
-- One row is a unit and a test that it had a run of or that is required. Writes: work_attribute, work_test.
-- Reads: scope, work_unit, stamped_run, attribute, applies, test_plan, test_definition, file_rank. Parameter: earliest_at.
CREATE OR REPLACE TEMP TABLE work_attribute AS
SELECT
    s.unit_no,
    a.name,
    max_by(
        coalesce(a.text_value, cast(a.number_value AS VARCHAR)),
        (coalesce(a."at", TIMESTAMPTZ '-infinity'), f.rank + a.file_row)
    ) AS value
FROM attribute AS a
INNER JOIN scope AS s ON a.vin = s.vin
INNER JOIN file_rank AS f ON a.file_id = f.file_id
WHERE
    (a."at" IS NULL OR a."at" >= $earliest_at)
    AND a.name IN (SELECT name FROM applies WHERE owner LIKE 'plan:%')
GROUP BY s.unit_no, a.name
UNION ALL
SELECT unit_no, 'model' AS name, model AS value FROM work_unit
WHERE 'model' IN (SELECT name FROM applies WHERE owner LIKE 'plan:%')
UNION ALL
SELECT unit_no, 'line' AS name, line AS value FROM work_unit
WHERE 'line' IN (SELECT name FROM applies WHERE owner LIKE 'plan:%');

CREATE OR REPLACE TEMP TABLE work_test AS
WITH first_run AS (
    SELECT key, run_id, result, "at", production_date, shift
    FROM stamped_run
    WHERE attempt = 1
),

later_run AS (
    SELECT key, run_id, result, attempt
    FROM stamped_run
    WHERE last AND attempt > 1
),

void_run AS (
    SELECT
        key,
        max_by(run_id, ("at", started_at, run_id)) AS run_id,
        max_by(void_reason, ("at", started_at, run_id)) AS void_reason,
        max("at") AS "at",
        max_by(production_date, ("at", started_at, run_id)) AS production_date,
        max_by(struct_pack(shift := shift), ("at", started_at, run_id)).shift AS shift
    FROM stamped_run
    WHERE NOT counts
    GROUP BY key
),

planned AS (
    SELECT
        u.unit_no,
        u.unit_no * 256 + d.position AS key,
        d.test,
        coalesce(l.attempt, CASE WHEN f.key IS NOT NULL THEN 1 END, 0) AS attempts,
        f.run_id AS first_run_id,
        f.result AS first_result,
        f."at" AS first_at,
        coalesce(l.run_id, f.run_id) AS last_run_id,
        coalesce(l.result, f.result) AS last_result,
        v.run_id AS void_run_id,
        v.void_reason,
        v."at" AS void_at,
        coalesce(f.production_date, v.production_date) AS production_date,
        CASE WHEN f.key IS NULL THEN v.shift ELSE f.shift END AS shift,
        f.key IS NOT NULL OR v.key IS NOT NULL AS was_run,
        coalesce(f."at", v."at", u.line_off_at, TIMESTAMPTZ 'infinity') AS planned_at
    FROM work_unit AS u
    CROSS JOIN test_definition AS d
    LEFT JOIN first_run AS f ON f.key = u.unit_no * 256 + d.position
    LEFT JOIN later_run AS l ON l.key = u.unit_no * 256 + d.position
    LEFT JOIN void_run AS v ON v.key = u.unit_no * 256 + d.position
),

-- A clause fails where the unit's value is known and is none of the clause's.
clause AS (
    SELECT u.unit_no, a.owner, a.clause, bool_or(w.value IS NULL OR w.value = a.value) AS held
    FROM work_unit AS u
    CROSS JOIN applies AS a
    LEFT JOIN work_attribute AS w ON u.unit_no = w.unit_no AND a.name = w.name
    WHERE a.owner LIKE 'plan:%'
    GROUP BY u.unit_no, a.owner, a.clause
),

exempt AS (
    SELECT DISTINCT unit_no, owner
    FROM clause
    WHERE NOT held
)

SELECT
    p.* EXCLUDE (was_run, planned_at),
    coalesce(t.test IS NOT NULL AND e.unit_no IS NULL AND (t.required = 'every' OR p.was_run), false) AS required
FROM planned AS p
LEFT JOIN test_plan AS t
    ON
        p.test = t.test AND p.planned_at >= t.valid_from
        AND (t.valid_to IS NULL OR p.planned_at < t.valid_to)
LEFT JOIN exempt AS e ON p.unit_no = e.unit_no AND t.owner = e.owner
WHERE p.was_run OR (t.required = 'every' AND e.unit_no IS NULL);
