-- answer: one row is a computed figure that SQL cannot give, written when a shift's report is made
CREATE TABLE answer (
    production_date DATE,
    shift VARCHAR,
    question VARCHAR,
    test VARCHAR,
    code VARCHAR,
    zone VARCHAR,
    subject VARCHAR,
    name VARCHAR,
    n BIGINT,
    "value" DOUBLE,
    low DOUBLE,
    high DOUBLE,
    words VARCHAR,
    method VARCHAR
);
COMMENT ON TABLE answer IS 'One row is a computed figure that SQL cannot give, written when a shift''s report is made.';
COMMENT ON COLUMN answer.production_date IS 'day of the shift.';
COMMENT ON COLUMN answer.shift IS 'the shift.';
COMMENT ON COLUMN answer.question IS 'what was asked.';
COMMENT ON COLUMN answer.test IS 'the test, null where none.';
COMMENT ON COLUMN answer.code IS 'the code, null where none.';
COMMENT ON COLUMN answer.zone IS 'the zone, null where none.';
COMMENT ON COLUMN answer.subject IS 'what the figure is of.';
COMMENT ON COLUMN answer.name IS 'name of the figure.';
COMMENT ON COLUMN answer.n IS 'units behind it.';
COMMENT ON COLUMN answer."value" IS 'the figure.';
COMMENT ON COLUMN answer.low IS 'lower end of its interval.';
COMMENT ON COLUMN answer.high IS 'upper end of its interval.';
COMMENT ON COLUMN answer.words IS 'the figure in words.';
COMMENT ON COLUMN answer.method IS 'how it was computed.';
