-- code_count: what every code had in each shift, for what codes are like (Hauer)
-- One row is a test x shift x code: tested production units of the test in the shift, and those of them with the code
-- (rules 7, 8 and 13).
-- Parameters: until (UTC, null for all). Reads: tested_unit, defect.
WITH tested AS (
    SELECT
        tested_unit.test,
        tested_unit.production_date,
        tested_unit.shift,
        count(*) AS units
    FROM tested_unit
    WHERE
        CAST($until AS TIMESTAMPTZ) IS NULL
        OR tested_unit."at" < CAST($until AS TIMESTAMPTZ)
    GROUP BY tested_unit.test, tested_unit.production_date, tested_unit.shift
),

found AS (
    SELECT
        defect.test,
        defect.production_date,
        defect.shift,
        defect.code,
        count(DISTINCT defect.vin) AS with_code
    FROM defect
    WHERE
        CAST($until AS TIMESTAMPTZ) IS NULL
        OR defect."at" < CAST($until AS TIMESTAMPTZ)
    GROUP BY defect.test, defect.production_date, defect.shift, defect.code
)

SELECT
    tested.test,
    tested.production_date,
    tested.shift,
    tested.units,
    found.code,
    found.with_code
FROM tested
LEFT JOIN found
    ON found.test = tested.test
    AND found.production_date = tested.production_date
    AND found.shift IS NOT DISTINCT FROM tested.shift
ORDER BY tested.test, tested.production_date, tested.shift, found.code;
