-- reference_check: what the reference vehicles showed of each bench
-- One row is a counted run of a reference unit's declared test. Rule 13: without its declared code it is a failed bench
-- check; where several codes are declared, each must be shown.
-- Reads: reference, run_of_unit, finding.
CREATE OR REPLACE VIEW reference_check AS
SELECT
    run_of_unit.run_id,
    run_of_unit.vin,
    run_of_unit.test,
    run_of_unit.station,
    run_of_unit.bay,
    run_of_unit."at",
    run_of_unit.production_date,
    run_of_unit.shift,
    run_of_unit.crew,
    run_of_unit.result,
    count(DISTINCT concat_ws('/', reference.code, reference.zone)) AS declared,
    count(DISTINCT CASE WHEN finding.run_id IS NOT NULL THEN concat_ws('/', reference.code, reference.zone) END) AS shown,
    count(DISTINCT concat_ws('/', reference.code, reference.zone))
    = count(DISTINCT CASE WHEN finding.run_id IS NOT NULL THEN concat_ws('/', reference.code, reference.zone) END) AS good
FROM run_of_unit
INNER JOIN reference ON reference.vin = run_of_unit.vin AND reference.test = run_of_unit.test
LEFT JOIN finding
    ON finding.run_id = run_of_unit.run_id
    AND finding.code = reference.code
    AND (reference.zone IS NULL OR finding.zone = reference.zone)
WHERE run_of_unit.kind = 'reference' AND run_of_unit.counts
GROUP BY
    run_of_unit.run_id,
    run_of_unit.vin,
    run_of_unit.test,
    run_of_unit.station,
    run_of_unit.bay,
    run_of_unit."at",
    run_of_unit.production_date,
    run_of_unit.shift,
    run_of_unit.crew,
    run_of_unit.result;

COMMENT ON VIEW reference_check IS
    'One row is a counted run of a reference unit in its declared test: a check of the bench (rule 13); key run_id.';
COMMENT ON COLUMN reference_check.run_id IS 'the run.';
COMMENT ON COLUMN reference_check.vin IS 'the reference unit.';
COMMENT ON COLUMN reference_check.test IS 'the test that must find its fault.';
COMMENT ON COLUMN reference_check.station IS 'the station that was checked.';
COMMENT ON COLUMN reference_check.bay IS 'the bay that was checked, null where the station has one place.';
COMMENT ON COLUMN reference_check."at" IS 'when (UTC), the end of the run.';
COMMENT ON COLUMN reference_check.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN reference_check.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN reference_check.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN reference_check.result IS 'result of the run.';
COMMENT ON COLUMN reference_check.declared IS 'code and zone pairs that it must show.';
COMMENT ON COLUMN reference_check.shown IS 'pairs of those that it showed.';
COMMENT ON COLUMN reference_check.good IS
    'true where it showed all; false is a failed bench check (rule 13).';
