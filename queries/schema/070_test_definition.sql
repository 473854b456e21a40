-- test_definition: one row is a test the plant declares
CREATE TABLE test_definition (
    test VARCHAR,
    title VARCHAR,
    length_seconds DOUBLE,
    max_quantity BIGINT,
    position BIGINT
);
COMMENT ON TABLE test_definition IS 'One row is a test the plant declares.';
COMMENT ON COLUMN test_definition.test IS 'name of the test.';
COMMENT ON COLUMN test_definition.title IS 'name in words.';
COMMENT ON COLUMN test_definition.length_seconds IS 'seconds a run takes where its feed has no end (rule 3).';
COMMENT ON COLUMN test_definition.max_quantity IS 'highest credible quantity of one finding (rule 8).';
COMMENT ON COLUMN test_definition.position IS 'place of the test in the order of plant.toml, from 1.';
