-- defect_condition: one row is a comparison of defect_when; a finding that misses one is an observation (rule 8)
CREATE TABLE defect_condition (
    test VARCHAR,
    name VARCHAR,
    comparison VARCHAR,
    number_value DOUBLE,
    text_value VARCHAR
);
COMMENT ON TABLE defect_condition IS 'One row is a comparison of defect_when; a finding that misses one is an observation (rule 8).';
COMMENT ON COLUMN defect_condition.test IS 'name of the test.';
COMMENT ON COLUMN defect_condition.name IS 'field of the finding that is compared: rating, quantity, severity, code, zone or step.';
COMMENT ON COLUMN defect_condition.comparison IS 'one of <=, <, >=, >, =, !=.';
COMMENT ON COLUMN defect_condition.number_value IS 'what a number is compared with, null for a text.';
COMMENT ON COLUMN defect_condition.text_value IS 'what a text is compared with, null for a number.';
