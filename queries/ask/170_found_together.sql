-- found_together: codes that come on the same unit more often than each alone would let one expect
-- One row is a pair of codes with at least so many units in common; lift is those units over the number expected where the
-- two had nothing to do with each other, among units that had both tests. Rule 8.
-- Set: least = 3
-- Reads: tested_unit, defect.
WITH coded AS (
    SELECT DISTINCT defect.vin, defect.test, defect.code FROM defect
),

pair AS (
    SELECT one.test, one.code, other.test AS other_test, other.code AS other_code, count(*) AS units
    FROM coded AS one
    INNER JOIN coded AS other
        ON other.vin = one.vin
        AND (other.test > one.test OR (other.test = one.test AND other.code > one.code))
    GROUP BY one.test, one.code, other.test, other.code
    HAVING count(*) >= $least
),

alone AS (
    SELECT coded.test, coded.code, count(*) AS units FROM coded GROUP BY coded.test, coded.code
),

tested AS (
    SELECT tested_unit.test, count(*) AS units FROM tested_unit GROUP BY tested_unit.test
)

SELECT
    pair.test,
    pair.code,
    pair.other_test,
    pair.other_code,
    pair.units,
    one.units AS units_with_code,
    other.units AS units_with_other,
    CAST(one.units AS DOUBLE) * other.units / greatest(here.units, there.units) AS expected,
    pair.units / (CAST(one.units AS DOUBLE) * other.units / greatest(here.units, there.units)) AS lift
FROM pair
INNER JOIN alone AS one ON one.test = pair.test AND one.code = pair.code
INNER JOIN alone AS other ON other.test = pair.other_test AND other.code = pair.other_code
INNER JOIN tested AS here ON here.test = pair.test
INNER JOIN tested AS there ON there.test = pair.other_test
ORDER BY lift DESC, pair.units DESC, pair.code, pair.other_code;
