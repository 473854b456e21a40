-- What each finding counts as, and UNSPECIFIED (rule 8)
-- One row is a finding of a run in scope. Writes: stamped_finding, and finding where a stamp differs.
-- Reads: work_finding, stamped_run, work_unit, unit_shift, several, test_step. Parameter: first_run_id.
CREATE OR REPLACE TEMP TABLE stamped_finding AS
WITH reached AS (
    SELECT
        r.run_id,
        max(coalesce(s.position, 1000000)) OVER (
            PARTITION BY r.key ORDER BY r.attempt ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING
        ) AS reached_before
    FROM stamped_run AS r
    SEMI JOIN several AS m ON r.key = m.key
    LEFT JOIN test_step AS s ON r.test = s.test AND r.last_step = s.step
    WHERE r.counts
),

told AS (
    SELECT run_id, code, zone, step, of_bench, observed
    FROM work_finding
    UNION ALL
    SELECT r.run_id, 'UNSPECIFIED' AS code, NULL AS zone, NULL AS step, false AS of_bench, false AS observed
    FROM stamped_run AS r
    WHERE
        r.counts AND r.result IN ('fail', 'aborted')
        AND NOT EXISTS (
            SELECT 1 FROM work_finding AS f
            WHERE f.run_id = r.run_id AND NOT f.of_bench AND NOT f.observed
        )
),

placed AS (
    SELECT
        t.*,
        NOT r.counts AS uncounted,
        r.attempt,
        r.test,
        u.vin,
        r."at",
        r.production_date,
        u.kind,
        l.line_date,
        l.line_shift,
        e.reached_before,
        s.position,
        min(r.attempt) FILTER (NOT t.of_bench AND NOT t.observed)
            OVER (PARTITION BY r.key, t.code, t.zone) AS first_seen
    FROM told AS t
    INNER JOIN stamped_run AS r ON t.run_id = r.run_id
    LEFT JOIN work_unit AS u ON r.unit_no = u.unit_no
    LEFT JOIN unit_shift AS l ON r.unit_no = l.unit_no
    LEFT JOIN reached AS e ON t.run_id = e.run_id
    LEFT JOIN test_step AS s ON r.test = s.test AND t.step = s.step
)

SELECT
    run_id,
    code,
    zone,
    step,
    CASE
        WHEN of_bench THEN 'equipment'
        WHEN uncounted THEN 'void'
        WHEN observed THEN 'observation'
        WHEN attempt = 1 THEN 'defect'
        WHEN first_seen < attempt THEN 'repeat'
        WHEN reached_before < position THEN 'masked'
        ELSE 'retest'
    END AS counts_as,
    test,
    vin,
    "at",
    kind,
    production_date,
    line_date,
    line_shift
FROM placed;

DELETE FROM finding
WHERE
    run_id >= $first_run_id AND file_id IS NULL
    AND run_id IN (SELECT run_id FROM stamped_run)
    AND run_id NOT IN (SELECT run_id FROM stamped_finding WHERE code = 'UNSPECIFIED');

INSERT INTO finding BY NAME
SELECT s.*
FROM stamped_finding AS s
WHERE
    s.code = 'UNSPECIFIED'
    AND NOT EXISTS (
        SELECT 1 FROM finding AS f
        WHERE f.run_id >= $first_run_id AND f.run_id = s.run_id AND f.code = 'UNSPECIFIED'
    );

UPDATE finding AS f
SET
    counts_as = s.counts_as,
    test = s.test,
    vin = s.vin,
    "at" = s."at",
    kind = s.kind,
    production_date = s.production_date,
    line_date = s.line_date,
    line_shift = s.line_shift
FROM stamped_finding AS s
WHERE
    f.run_id = s.run_id AND f.code = s.code
    AND f.zone IS NOT DISTINCT FROM s.zone AND f.step IS NOT DISTINCT FROM s.step
    AND (
        f.counts_as IS DISTINCT FROM s.counts_as OR f.test IS DISTINCT FROM s.test
        OR f.vin IS DISTINCT FROM s.vin OR f."at" IS DISTINCT FROM s."at" OR f.kind IS DISTINCT FROM s.kind
        OR f.production_date IS DISTINCT FROM s.production_date
        OR f.line_date IS DISTINCT FROM s.line_date OR f.line_shift IS DISTINCT FROM s.line_shift
    );
