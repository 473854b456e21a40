-- test_step: one row is a step of a test, in the order in which the test runs them (rule 8, masked)
CREATE TABLE test_step (
    test VARCHAR,
    step VARCHAR,
    position BIGINT
);
COMMENT ON TABLE test_step IS 'One row is a step of a test, in the order in which the test runs them (rule 8, masked).';
COMMENT ON COLUMN test_step.test IS 'name of the test.';
COMMENT ON COLUMN test_step.step IS 'name of the step.';
COMMENT ON COLUMN test_step.position IS 'place of the step in the test, from 1.';
