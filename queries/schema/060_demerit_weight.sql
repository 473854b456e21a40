-- demerit_weight: one row is the weight of a severity class
CREATE TABLE demerit_weight (
    severity VARCHAR,
    weight DOUBLE
);
COMMENT ON TABLE demerit_weight IS 'One row is the weight of a severity class.';
COMMENT ON COLUMN demerit_weight.severity IS 'severity class A, B, C or D.';
COMMENT ON COLUMN demerit_weight.weight IS 'demerits of one defect of that class.';
