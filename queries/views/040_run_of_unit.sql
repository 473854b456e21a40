-- run_of_unit: each run with its unit and the crew of its shift
-- One row is a run, counted or not, of a unit of any kind. The other views read runs through it.
-- Reads: run, shift_window.
CREATE OR REPLACE VIEW run_of_unit AS
SELECT
    run.run_id,
    run.vin,
    run.test,
    run.station,
    run.bay,
    run.program,
    run."operator",
    run.started_at,
    run."at",
    run.result,
    run.counts,
    run.void_reason,
    run.attempt,
    run.production_date,
    run.shift,
    shift_window.crew,
    shift_window.ends_at AS shift_ends_at,
    run.kind,
    run.model,
    run.line,
    run.build_seq,
    run.earliest_at
FROM run
LEFT JOIN shift_window
    ON shift_window.production_date = run.production_date
    AND shift_window.shift = run.shift;

COMMENT ON VIEW run_of_unit IS
    'One row is a run with its unit and the crew of its shift, counted or not, of a unit of any kind; key run_id.';
COMMENT ON COLUMN run_of_unit.run_id IS 'the run.';
COMMENT ON COLUMN run_of_unit.vin IS 'the unit.';
COMMENT ON COLUMN run_of_unit.test IS 'the test.';
COMMENT ON COLUMN run_of_unit.station IS 'where it ran.';
COMMENT ON COLUMN run_of_unit.bay IS 'place within the station, null where it has one.';
COMMENT ON COLUMN run_of_unit.program IS 'program or limit set of the bench.';
COMMENT ON COLUMN run_of_unit."operator" IS 'keyed pseudonym of the operator or evaluator (rule 18).';
COMMENT ON COLUMN run_of_unit.started_at IS 'start (UTC).';
COMMENT ON COLUMN run_of_unit."at" IS 'when the run counts (UTC), its end (rule 3).';
COMMENT ON COLUMN run_of_unit.result IS 'pass, fail, aborted or bypass.';
COMMENT ON COLUMN run_of_unit.counts IS 'true where the run counts (rules 2, 4, 5, 6).';
COMMENT ON COLUMN run_of_unit.void_reason IS 'why it does not count, null where it does.';
COMMENT ON COLUMN run_of_unit.attempt IS
    'number among the counted runs of the unit in the test, null where uncounted (rule 7).';
COMMENT ON COLUMN run_of_unit.production_date IS 'day of the shift that holds at (rule 3).';
COMMENT ON COLUMN run_of_unit.shift IS 'shift that holds at, null between shifts.';
COMMENT ON COLUMN run_of_unit.crew IS 'crew that worked the shift, null where unknown.';
COMMENT ON COLUMN run_of_unit.shift_ends_at IS 'end of the shift (UTC), exclusive; null between shifts.';
COMMENT ON COLUMN run_of_unit.kind IS 'production, trial, reference or training (rule 13).';
COMMENT ON COLUMN run_of_unit.model IS 'model of the unit, null where unknown.';
COMMENT ON COLUMN run_of_unit.line IS 'production line of the unit, null where unknown.';
COMMENT ON COLUMN run_of_unit.build_seq IS 'place of the unit in the build order, null where unknown.';
COMMENT ON COLUMN run_of_unit.earliest_at IS
    'earliest time anything is known of the unit (UTC); a bound for look-ups.';
