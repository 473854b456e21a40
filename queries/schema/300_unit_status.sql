-- unit_status: one row is what a unit stands at in a test; key vin, test
CREATE TABLE unit_status (
    vin VARCHAR,
    test VARCHAR,
    required BOOLEAN,
    attempts BIGINT,
    first_run_id BIGINT,
    first_result VARCHAR,
    last_run_id BIGINT,
    last_result VARCHAR,
    clear_at TIMESTAMPTZ,
    waiting_since TIMESTAMPTZ,
    status VARCHAR,
    reason VARCHAR,
    production_date DATE,
    shift VARCHAR,
    kind VARCHAR,
    line_date DATE,
    line_shift VARCHAR,
    asked_by VARCHAR,
    asked_at TIMESTAMPTZ,
    earliest_at TIMESTAMPTZ
);
COMMENT ON TABLE unit_status IS 'One row is what a unit stands at in a test; key vin, test.';
COMMENT ON COLUMN unit_status.vin IS 'the unit.';
COMMENT ON COLUMN unit_status.test IS 'the test.';
COMMENT ON COLUMN unit_status.required IS 'true where the plan requires the test of this unit.';
COMMENT ON COLUMN unit_status.attempts IS 'counted runs.';
COMMENT ON COLUMN unit_status.first_run_id IS 'attempt 1, null where no run counts.';
COMMENT ON COLUMN unit_status.first_result IS 'its result.';
COMMENT ON COLUMN unit_status.last_run_id IS 'latest counted run.';
COMMENT ON COLUMN unit_status.last_result IS 'its result.';
COMMENT ON COLUMN unit_status.clear_at IS 'when it became clear, null where it is not (a pass at the latest counted run, no disturbing repair after it).';
COMMENT ON COLUMN unit_status.waiting_since IS 'since when it waits, null where it does not.';
COMMENT ON COLUMN unit_status.status IS 'scrapped, diverted, passed, released, held, failed, disturbed, bypassed, pending, void or untested, the first that applies.';
COMMENT ON COLUMN unit_status.reason IS 'what the status rests on, in a word: void reason, repair, release reference.';
COMMENT ON COLUMN unit_status.production_date IS 'day of the first counted run, else of the last void run.';
COMMENT ON COLUMN unit_status.shift IS 'shift of the same run, null between shifts.';
COMMENT ON COLUMN unit_status.earliest_at IS 'earliest time anything is known of the unit (UTC); a bound for look-ups.';
COMMENT ON COLUMN unit_status.kind IS 'kind of the unit, as in unit (rule 13).';
COMMENT ON COLUMN unit_status.line_date IS 'day of the shift in which the unit left the line, as in unit (rule 11).';
COMMENT ON COLUMN unit_status.line_shift IS 'that shift, as in unit.';
COMMENT ON COLUMN unit_status.asked_by IS 'kind of the first event that asks for proof of the test (rule 14); null where the test is clear or none has.';
COMMENT ON COLUMN unit_status.asked_at IS 'when that event was (UTC).';
