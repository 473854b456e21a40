-- tested_unit: production units at attempt 1, without their findings
-- One row is a production unit x test at its first counted run. Rules 7 and 13; first_run has the defects beside it.
-- Reads: run_of_unit.
CREATE OR REPLACE VIEW tested_unit AS
SELECT
    run_of_unit.production_date,
    run_of_unit.shift,
    run_of_unit.test,
    run_of_unit.vin,
    run_of_unit.run_id,
    run_of_unit."at",
    run_of_unit.model,
    run_of_unit.line,
    coalesce(run_of_unit.earliest_at, CAST('0001-01-01 00:00:00+00:00' AS TIMESTAMPTZ)) AS known_from
FROM run_of_unit
WHERE run_of_unit.attempt = 1 AND run_of_unit.kind = 'production';

COMMENT ON VIEW tested_unit IS
    'One row is a production unit x test at its first counted run, without its findings (rules 7 and 13); key vin, test.';
COMMENT ON COLUMN tested_unit.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN tested_unit.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN tested_unit.test IS 'the test.';
COMMENT ON COLUMN tested_unit.vin IS 'the unit.';
COMMENT ON COLUMN tested_unit.run_id IS 'attempt 1.';
COMMENT ON COLUMN tested_unit."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN tested_unit.model IS 'model of the unit, null where unknown.';
COMMENT ON COLUMN tested_unit.line IS 'production line of the unit, null where unknown.';
COMMENT ON COLUMN tested_unit.known_from IS
    'earliest time anything is known of the unit (UTC), year 1 where unknown; a bound for look-ups.';
