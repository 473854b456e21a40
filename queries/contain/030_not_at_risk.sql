-- not_at_risk: the units that cannot have a code by the catalogue's newest clauses, tested or not
-- One row is a production unit of which an attribute, its model or its line is known and not among the values of a
-- clause (rule 10); one that shows the code is at risk whatever it is told to be.
-- Parameters: code, test. Reads: catalogue, applies, unit, attribute_latest, classed_finding.
WITH clause AS (
    SELECT applies.clause, applies.name, applies."value"
    FROM catalogue
    INNER JOIN applies
        ON applies.owner = catalogue.applies_owner
        AND applies.valid_from IS NOT DISTINCT FROM catalogue.applies_from
    WHERE catalogue.code = $code AND catalogue.test = $test
    QUALIFY dense_rank() OVER (ORDER BY catalogue.from_at DESC) = 1
),

told AS (
    SELECT
        unit.vin,
        clause.clause,
        clause."value",
        CASE clause.name
            WHEN 'model' THEN unit.model
            WHEN 'line' THEN unit.line
            ELSE coalesce(attribute_latest.text_value, CAST(attribute_latest.number_value AS VARCHAR))
        END AS told_value
    FROM unit
    CROSS JOIN clause
    LEFT JOIN attribute_latest ON attribute_latest.vin = unit.vin AND attribute_latest.name = clause.name
    WHERE unit.kind = 'production'
),

missed AS (
    SELECT told.vin
    FROM told
    GROUP BY told.vin, told.clause
    HAVING bool_or(told.told_value IS NOT NULL) AND NOT bool_or(coalesce(told.told_value = told."value", false))
)

SELECT DISTINCT missed.vin
FROM missed
WHERE missed.vin NOT IN (
    SELECT classed_finding.vin
    FROM classed_finding
    WHERE classed_finding.code = $code AND classed_finding.test = $test
)
ORDER BY missed.vin;
