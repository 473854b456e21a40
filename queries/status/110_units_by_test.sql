-- units_by_test: which units of a shift were due in each test, and what became of them
-- One row is a test of the plant, in the order of plant.toml. The units due are the line cohort (rule 11), expected;
-- where no unit left the line in the shift, those that stand in it (expected is null).
-- presented to void_runs are of the runs that ended in the shift (rule 9), the rest is of the units due.
-- Reads: unit, unit_status, line_standing, lacking_proof, ftt_by_shift, test_definition.
WITH cohort AS (
    SELECT line_standing.vin, line_standing.test, line_standing.earliest_at
    FROM line_standing
    WHERE
        line_standing.production_date = $production_date
        AND line_standing.shift = $shift
        AND line_standing.required
),

standing AS (
    SELECT
        unit_status.vin,
        unit_status.test,
        unit_status.attempts,
        unit_status.status,
        unit_status.earliest_at,
        unit_status.production_date IS NOT NULL AS was_run,
        true AS left_line
    FROM cohort
    INNER JOIN unit_status
        ON unit_status.vin = cohort.vin
        AND unit_status.test = cohort.test
        AND unit_status.earliest_at IS NOT DISTINCT FROM cohort.earliest_at
    UNION ALL
    SELECT
        unit_status.vin,
        unit_status.test,
        unit_status.attempts,
        unit_status.status,
        unit_status.earliest_at,
        true AS was_run,
        false AS left_line
    FROM unit_status
    INNER JOIN unit ON unit.vin = unit_status.vin AND unit.earliest_at IS NOT DISTINCT FROM unit_status.earliest_at
    WHERE
        unit_status.production_date = $production_date
        AND unit_status.shift = $shift
        AND unit_status.required
        AND unit.kind = 'production'
        AND NOT EXISTS (SELECT 1 FROM cohort)
),

lacking AS (
    SELECT standing.vin, standing.test, lacking_proof.silent_station
    FROM standing
    INNER JOIN lacking_proof
        ON lacking_proof.vin = standing.vin
        AND lacking_proof.test = standing.test
        AND lacking_proof.earliest_at IS NOT DISTINCT FROM standing.earliest_at
),

due AS (
    SELECT
        standing.test,
        count(*) FILTER (WHERE standing.left_line) AS left_line,
        count(*) FILTER (WHERE standing.attempts > 0) AS counted,
        count(*) FILTER (WHERE standing.attempts = 0 AND standing.was_run) AS void_only,
        count(*) FILTER (
            WHERE NOT standing.was_run AND standing.status NOT IN ('scrapped', 'diverted')
        ) AS untested,
        count(*) FILTER (WHERE standing.status = 'held') AS held,
        count(*) FILTER (WHERE lacking.silent_station IS NOT NULL) AS unproven,
        count(*) FILTER (WHERE lacking.vin IS NOT NULL AND lacking.silent_station IS NULL) AS escaped
    FROM standing
    LEFT JOIN lacking ON lacking.vin = standing.vin AND lacking.test = standing.test
    GROUP BY standing.test
),

ran AS (
    SELECT
        ftt_by_shift.test,
        ftt_by_shift.presented,
        ftt_by_shift.tested,
        ftt_by_shift.pending,
        ftt_by_shift.void_runs
    FROM ftt_by_shift
    WHERE
        ftt_by_shift.production_date = $production_date
        AND ftt_by_shift.shift = $shift
)

SELECT
    test_definition.test,
    test_definition.title,
    due.test IS NOT NULL AS required,
    nullif(due.left_line, 0) AS expected,
    coalesce(ran.presented, 0) AS presented,
    coalesce(ran.tested, 0) AS tested,
    coalesce(ran.pending, 0) AS pending,
    coalesce(ran.void_runs, 0) AS void_runs,
    coalesce(due.counted, 0) AS counted,
    coalesce(due.void_only, 0) AS void_only,
    coalesce(due.untested, 0) AS untested,
    coalesce(due.unproven, 0) AS unproven,
    coalesce(due.escaped, 0) AS escaped,
    coalesce(due.held, 0) AS held
FROM test_definition
LEFT JOIN due ON due.test = test_definition.test
LEFT JOIN ran ON ran.test = test_definition.test
ORDER BY test_definition.position;
