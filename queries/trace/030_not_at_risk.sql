-- not_at_risk: the runs of units that cannot have a code, and those of which it is not known
-- One row is a first counted run; at_risk false: it cannot; else an attribute that would tell is unknown (rule 10).
-- Parameters: code, test. Reads: unit_at_risk.
SELECT unit_at_risk.run_id, unit_at_risk.at_risk
FROM unit_at_risk
WHERE
    unit_at_risk.windows = 1
    AND unit_at_risk.code = $code
    AND unit_at_risk.test = $test
    AND NOT (unit_at_risk.at_risk AND unit_at_risk.known);
