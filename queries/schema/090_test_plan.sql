-- test_plan: one row is whether a test is required, from a time on; the newest not after a run's end applies (rule 4)
CREATE TABLE test_plan (
    test VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    required VARCHAR,
    owner VARCHAR
);
COMMENT ON TABLE test_plan IS 'One row is whether a test is required, from a time on; the newest not after a run''s end applies (rule 4).';
COMMENT ON COLUMN test_plan.test IS 'name of the test.';
COMMENT ON COLUMN test_plan.valid_from IS 'from when the row applies (UTC).';
COMMENT ON COLUMN test_plan.valid_to IS 'when the next row of this test takes over (UTC), null where none does.';
COMMENT ON COLUMN test_plan.required IS 'every: each unit at risk must have it; when_run: only units that were run.';
COMMENT ON COLUMN test_plan.owner IS 'key of its clauses in applies, null where the test is for every unit.';
