-- first_run: attempt 1 of production units
-- One row is a production unit x test at its first counted run. Rules 7, 9 and 13. FTT and DPHU are rebuilt from it in
-- one SELECT.
-- Reads: first_run_all.
CREATE OR REPLACE VIEW first_run AS
SELECT
    first_run_all.vin,
    first_run_all.test,
    first_run_all.run_id,
    first_run_all.station,
    first_run_all.bay,
    first_run_all.program,
    first_run_all."operator",
    first_run_all."at",
    first_run_all.production_date,
    first_run_all.shift,
    first_run_all.crew,
    first_run_all.result,
    first_run_all.model,
    first_run_all.line,
    first_run_all.build_seq,
    first_run_all.passed,
    first_run_all.defects,
    first_run_all.quantity,
    first_run_all.demerits
FROM first_run_all
WHERE first_run_all.kind = 'production';

COMMENT ON VIEW first_run IS
    'One row is attempt 1 of a production unit in a test (rules 7 and 13); key vin, test.';
COMMENT ON COLUMN first_run.vin IS 'the unit.';
COMMENT ON COLUMN first_run.test IS 'the test.';
COMMENT ON COLUMN first_run.run_id IS 'attempt 1.';
COMMENT ON COLUMN first_run.station IS 'where it ran.';
COMMENT ON COLUMN first_run.bay IS 'place within the station.';
COMMENT ON COLUMN first_run.program IS 'program or limit set of the bench.';
COMMENT ON COLUMN first_run."operator" IS 'keyed pseudonym of the operator or evaluator (rule 18).';
COMMENT ON COLUMN first_run."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN first_run.production_date IS 'day of the run''s shift (rule 3).';
COMMENT ON COLUMN first_run.shift IS 'shift of the run, null between shifts.';
COMMENT ON COLUMN first_run.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN first_run.result IS 'pass, fail or aborted.';
COMMENT ON COLUMN first_run.model IS 'model of the unit.';
COMMENT ON COLUMN first_run.line IS 'production line of the unit.';
COMMENT ON COLUMN first_run.build_seq IS 'place of the unit in the build order.';
COMMENT ON COLUMN first_run.passed IS '1 where it passed, else 0 (rule 9).';
COMMENT ON COLUMN first_run.defects IS 'its defects (rule 8).';
COMMENT ON COLUMN first_run.quantity IS 'the quantities of its defects summed.';
COMMENT ON COLUMN first_run.demerits IS 'the weights of its defects summed; an unclassed defect adds none.';
