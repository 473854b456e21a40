-- build_yields: what the units of each line cohort gave in each required test, to add cohorts up
-- One row is a line_date x line_shift x required test from $first_date on (rules 11 and 12); squares, the sum of the
-- squares of the units' defect counts, is the same in all rows of a cohort.
-- Reads: line_standing, defect.
WITH fault AS (
    SELECT DISTINCT
        defect.line_date AS production_date,
        defect.line_shift AS shift,
        defect.vin,
        defect.root_code,
        defect.cell
    FROM defect
    WHERE defect.line_date BETWEEN $first_date AND $production_date
),

faulty AS (
    SELECT fault.production_date, fault.shift, fault.vin, count(*) AS defects
    FROM fault
    GROUP BY fault.production_date, fault.shift, fault.vin
),

squared AS (
    SELECT
        faulty.production_date,
        faulty.shift,
        CAST(sum(faulty.defects * faulty.defects) AS BIGINT) AS squares
    FROM faulty
    GROUP BY faulty.production_date, faulty.shift
)

SELECT
    line_standing.production_date,
    line_standing.shift,
    line_standing.test,
    count(*) FILTER (WHERE line_standing.attempts > 0) AS tested,
    count(*) FILTER (WHERE line_standing.attempts > 0 AND line_standing.first_result = 'pass') AS passed,
    coalesce(max(squared.squares), 0) AS squares
FROM line_standing
LEFT JOIN squared
    ON squared.production_date = line_standing.production_date
    AND squared.shift IS NOT DISTINCT FROM line_standing.shift
WHERE
    line_standing.required
    AND line_standing.production_date BETWEEN $first_date AND $production_date
GROUP BY line_standing.production_date, line_standing.shift, line_standing.test
ORDER BY line_standing.production_date, line_standing.shift, line_standing.test;
