-- line_standing: what the units of each line cohort stand at in each test
-- One row is a production unit that left the line x test required of it or run. Rules 11 and 13.
-- Reads: unit, unit_status.
CREATE OR REPLACE VIEW line_standing AS
SELECT
    unit.line_date AS production_date,
    unit.line_shift AS shift,
    unit.vin,
    unit.model,
    unit.line_state,
    unit.earliest_at,
    unit_status.test,
    unit_status.required,
    unit_status.attempts,
    unit_status.first_run_id,
    unit_status.first_result,
    unit_status.status
FROM unit
INNER JOIN unit_status
    ON unit_status.vin = unit.vin
    AND unit_status.earliest_at IS NOT DISTINCT FROM unit.earliest_at
WHERE unit.kind = 'production' AND unit.line_date IS NOT NULL;

COMMENT ON VIEW line_standing IS
    'One row is a production unit that left the line x test required of it or run (rules 11 and 13); key vin, test.';
COMMENT ON COLUMN line_standing.production_date IS
    'day of the shift in which the unit left the line (rules 3 and 11).';
COMMENT ON COLUMN line_standing.shift IS 'that shift; null where it left the line between shifts.';
COMMENT ON COLUMN line_standing.vin IS 'the unit.';
COMMENT ON COLUMN line_standing.model IS 'model of the unit, null where unknown.';
COMMENT ON COLUMN line_standing.line_state IS 'went_through, failed_one or undecided (rule 11).';
COMMENT ON COLUMN line_standing.earliest_at IS
    'earliest time anything is known of the unit (UTC); a bound for look-ups.';
COMMENT ON COLUMN line_standing.test IS 'the test.';
COMMENT ON COLUMN line_standing.required IS 'true where the plan requires the test of this unit.';
COMMENT ON COLUMN line_standing.attempts IS 'counted runs.';
COMMENT ON COLUMN line_standing.first_run_id IS 'attempt 1, null where no run counts.';
COMMENT ON COLUMN line_standing.first_result IS 'result of attempt 1, null where no run counts.';
COMMENT ON COLUMN line_standing.status IS 'what the unit stands at in the test.';
