-- defect_places: the place of each unit with a code among the tested units of its shift
-- One row is a unit x code, from $first_date on; place counts from 1 in the order of testing (rules 7 and 8).
-- Reads: tested_unit, defect.
WITH ordered AS (
    SELECT
        tested_unit.production_date,
        tested_unit.shift,
        tested_unit.test,
        tested_unit.vin,
        row_number() OVER (
            PARTITION BY tested_unit.production_date, tested_unit.shift, tested_unit.test
            ORDER BY tested_unit."at", tested_unit.run_id
        ) AS place
    FROM tested_unit
    WHERE tested_unit.production_date BETWEEN $first_date AND $production_date
)

SELECT DISTINCT
    ordered.production_date,
    ordered.shift,
    ordered.test,
    defect.code,
    ordered.place
FROM ordered
INNER JOIN defect ON defect.vin = ordered.vin AND defect.test = ordered.test
WHERE defect.production_date BETWEEN $first_date AND $production_date
ORDER BY ordered.production_date, ordered.shift, ordered.test, defect.code, ordered.place;
