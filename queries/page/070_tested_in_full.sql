-- tested_in_full: units of a shift's line cohort with a counted run of every test required of them
-- One row (rules 4 and 11).
-- Reads: unit, unit_status.
SELECT count(*) AS units
FROM unit
WHERE
    unit.line_date = $production_date
    AND unit.line_shift IS NOT DISTINCT FROM $shift
    AND unit.kind = 'production'
    AND NOT EXISTS (
        SELECT 1
        FROM unit_status
        WHERE
            unit_status.vin = unit.vin
            AND unit_status.required
            AND unit_status.attempts = 0
    );
