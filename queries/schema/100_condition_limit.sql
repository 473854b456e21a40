-- condition_limit: one row is a condition of a test with its limits, from a time on (rule 4)
CREATE TABLE condition_limit (
    test VARCHAR,
    name VARCHAR,
    valid_from TIMESTAMPTZ,
    valid_to TIMESTAMPTZ,
    lower DOUBLE,
    upper DOUBLE,
    measure_unit VARCHAR,
    required BOOLEAN
);
COMMENT ON TABLE condition_limit IS 'One row is a condition of a test with its limits, from a time on (rule 4).';
COMMENT ON COLUMN condition_limit.test IS 'name of the test.';
COMMENT ON COLUMN condition_limit.name IS 'name of the condition, as a reading.';
COMMENT ON COLUMN condition_limit.valid_from IS 'from when the row applies (UTC).';
COMMENT ON COLUMN condition_limit.valid_to IS 'when the next row of this condition takes over (UTC), null where none does.';
COMMENT ON COLUMN condition_limit.lower IS 'lowest value of a sound test, null where open.';
COMMENT ON COLUMN condition_limit.upper IS 'highest value of a sound test, null where open.';
COMMENT ON COLUMN condition_limit.measure_unit IS 'unit of measure of the value.';
COMMENT ON COLUMN condition_limit.required IS 'true: a pass without it is pending (missing).';
