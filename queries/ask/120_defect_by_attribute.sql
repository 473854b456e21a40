-- defect_by_attribute: how often a code comes with each value of each attribute, beside all other units of the same test
-- One row is an attribute x value that stands as text. A ratio is no cause: values that came at the same time as another
-- one share its rate, so compare within shift and model before believing it. Rules 8 and 13.
-- Set: code = SR-TAILTRIM, least = 50
-- Reads: tested_unit, defect, attribute_latest, unit.
WITH tested AS (
    SELECT
        tested_unit.vin,
        tested_unit.model,
        tested_unit.run_id IN (
            SELECT defect.run_id
            FROM defect
            WHERE defect.code = $code
        ) AS found
    FROM tested_unit
    WHERE tested_unit.test = (SELECT min(catalogue.test) FROM catalogue WHERE catalogue.code = $code)
),

told AS (
    SELECT tested.vin, tested.found, attribute_latest.name, attribute_latest.text_value
    FROM tested
    INNER JOIN attribute_latest ON attribute_latest.vin = tested.vin
    WHERE attribute_latest.text_value IS NOT NULL AND attribute_latest.number_value IS NULL
    UNION ALL
    SELECT tested.vin, tested.found, 'model' AS name, tested.model AS text_value
    FROM tested
    WHERE tested.model IS NOT NULL
),

grouped AS (
    SELECT told.name, told.text_value, count(*) AS units, count_if(told.found) AS found
    FROM told
    GROUP BY told.name, told.text_value
),

total AS (
    SELECT count(*) AS units, count_if(tested.found) AS found FROM tested
)

SELECT
    grouped.name,
    grouped.text_value,
    grouped.units,
    grouped.found AS units_with,
    100 * grouped.found / grouped.units AS per_100,
    100 * (total.found - grouped.found) / nullif(total.units - grouped.units, 0) AS per_100_others,
    (grouped.found / grouped.units)
    / nullif((total.found - grouped.found) / nullif(total.units - grouped.units, 0), 0) AS ratio
FROM grouped
CROSS JOIN total
WHERE grouped.units >= $least
ORDER BY ratio DESC NULLS LAST, grouped.units DESC, grouped.name, grouped.text_value;
