-- at_risk_history: units that cannot have a code that only some units can have, up to a shift
-- One row is a shift x test x code with applies_when, from $first_date on (rule 10); other codes can be had by all.
-- Reads: unit_at_risk.
SELECT
    unit_at_risk.production_date,
    unit_at_risk.shift,
    unit_at_risk.test,
    unit_at_risk.code,
    count(*) FILTER (WHERE NOT unit_at_risk.at_risk) AS spared
FROM unit_at_risk
WHERE
    unit_at_risk.windows = 1
    AND unit_at_risk.production_date BETWEEN $first_date AND $production_date
GROUP BY unit_at_risk.production_date, unit_at_risk.shift, unit_at_risk.test, unit_at_risk.code
ORDER BY unit_at_risk.production_date, unit_at_risk.shift, unit_at_risk.test, unit_at_risk.code;
