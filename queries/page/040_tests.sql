-- tests: the tests of the plant, and whether the plan asked for them in a shift
-- One row is a test, in the order of plant.toml. The newest plan row not after the shift's end applies (rule 4).
-- Reads: test_definition, test_plan, shift_window.
WITH ended AS (
    SELECT shift_window.ends_at
    FROM shift_window
    WHERE
        shift_window.production_date = $production_date
        AND shift_window.shift = $shift
),

planned AS (
    SELECT test_plan.test
    FROM test_plan
    LEFT JOIN ended ON true
    WHERE
        test_plan.required = 'every'
        AND (ended.ends_at IS NULL OR test_plan.valid_from <= ended.ends_at)
        AND (ended.ends_at IS NULL OR test_plan.valid_to IS NULL OR test_plan.valid_to > ended.ends_at)
    GROUP BY test_plan.test
)

SELECT
    test_definition.test,
    test_definition.title,
    planned.test IS NOT NULL AS required
FROM test_definition
LEFT JOIN planned ON planned.test = test_definition.test
ORDER BY test_definition.position;
