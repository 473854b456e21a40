-- Which runs do not count, and why (rules 2, 4, 5, 6)
-- One row is a run in scope that is void. Writes: work_void.
-- Reads: work_run, work_finding, condition_limit, reading, twin, double_pair. Parameter: first_run_id.
CREATE OR REPLACE TEMP TABLE work_void AS
WITH measured AS (
    SELECT run_id, name, min(value) AS lowest, max(value) AS highest
    FROM reading
    WHERE run_id >= $first_run_id AND name IN (SELECT name FROM condition_limit WHERE required)
    GROUP BY run_id, name
),

-- Of several samples the lowest decides weak, the highest harsh; a missing limit is open.
condition AS (
    SELECT
        w.run_id,
        bool_or(m.lowest IS NULL) AS missing,
        bool_or(m.lowest < l.lower) AS weak,
        bool_or(m.highest > l.upper) AS harsh
    FROM work_run AS w
    INNER JOIN condition_limit AS l
        ON
            w.test = l.test AND l.required
            AND w."at" >= l.valid_from AND (l.valid_to IS NULL OR w."at" < l.valid_to)
    LEFT JOIN measured AS m ON w.run_id = m.run_id AND l.name = m.name
    GROUP BY w.run_id
),

found AS (
    SELECT
        run_id,
        count(*) AS findings,
        count(*) FILTER (NOT of_bench) AS of_product
    FROM work_finding
    GROUP BY run_id
),

doubled AS (
    SELECT DISTINCT t.run_id, t.file_id
    FROM twin AS t
    INNER JOIN double_pair AS p USING (file_id, twin_file_id, step_seconds)
),

judged AS (
    SELECT
        w.run_id,
        CASE
            WHEN d.run_id IS NOT NULL THEN 'suspect_double'
            WHEN w.result = 'bypass' THEN 'bypass'
            WHEN w.result = 'aborted' AND coalesce(f.of_product, 0) = 0 THEN 'aborted'
            WHEN w.result = 'fail' AND f.findings > 0 AND f.of_product = 0 THEN 'equipment'
            WHEN w.result = 'pass' AND c.missing THEN 'missing'
            WHEN w.result = 'pass' AND c.weak THEN 'weak'
            WHEN w.result IN ('fail', 'aborted') AND c.harsh THEN 'harsh'
        END AS void_reason
    FROM work_run AS w
    LEFT JOIN found AS f ON w.run_id = f.run_id
    LEFT JOIN condition AS c ON w.run_id = c.run_id
    LEFT JOIN doubled AS d ON w.run_id = d.run_id AND w.file_id = d.file_id
)

SELECT run_id, void_reason
FROM judged
WHERE void_reason IS NOT NULL;
