-- figure_sent: one row is a figure of a report that left, or of a shift when it first settled
CREATE TABLE figure_sent (
    message_id VARCHAR,
    figure VARCHAR,
    key VARCHAR,
    n BIGINT,
    "value" DOUBLE,
    low DOUBLE,
    high DOUBLE
);
COMMENT ON TABLE figure_sent IS 'One row is a figure of a report that left, or of a shift when it first settled.';
COMMENT ON COLUMN figure_sent.message_id IS 'the report, settled: and the shift where none left.';
COMMENT ON COLUMN figure_sent.figure IS 'view and column of the figure.';
COMMENT ON COLUMN figure_sent.key IS 'key of its row, as JSON.';
COMMENT ON COLUMN figure_sent.n IS 'units behind it.';
COMMENT ON COLUMN figure_sent."value" IS 'the figure as sent.';
COMMENT ON COLUMN figure_sent.low IS 'lower end of its interval.';
COMMENT ON COLUMN figure_sent.high IS 'upper end of its interval.';
