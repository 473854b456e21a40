-- figure_change: figures that were sent, or settled, and are others now
-- One row is a sent figure whose number of units or value has moved. A later file changes no settled or sent figure
-- without a row here (rule 4).
-- Reads: figure_sent, figure_now, report_sent.
CREATE OR REPLACE VIEW figure_change AS
SELECT
    figure_sent.message_id,
    sending.sent_at,
    figure_sent.figure,
    figure_sent.key,
    figure_sent.n AS sent_n,
    figure_sent."value" AS sent_value,
    figure_sent.low AS sent_low,
    figure_sent.high AS sent_high,
    figure_now.n,
    figure_now."value",
    figure_now.low,
    figure_now.high
FROM figure_sent
LEFT JOIN (
    SELECT report_sent.message_id, min(report_sent.sent_at) AS sent_at
    FROM report_sent
    GROUP BY report_sent.message_id
) AS sending ON sending.message_id = figure_sent.message_id
LEFT JOIN figure_now ON figure_now.figure = figure_sent.figure AND figure_now.key = figure_sent.key
WHERE
    coalesce(figure_now.n, 0) <> coalesce(figure_sent.n, 0)
    OR (figure_now."value" IS NULL) <> (figure_sent."value" IS NULL)
    OR abs(figure_now."value" - figure_sent."value") > 1e-9;

COMMENT ON VIEW figure_change IS
    'One row is a figure that was sent or settled and is another now (rule 4); key message_id, figure, key.';
COMMENT ON COLUMN figure_change.message_id IS
    'the report that stated it; settled: and the shift where none left.';
COMMENT ON COLUMN figure_change.sent_at IS 'when the report left first (UTC), null where none did.';
COMMENT ON COLUMN figure_change.figure IS 'view and column of the figure.';
COMMENT ON COLUMN figure_change.key IS 'key of its row in that view, as a JSON object.';
COMMENT ON COLUMN figure_change.sent_n IS 'units behind it as sent.';
COMMENT ON COLUMN figure_change.sent_value IS 'the figure as sent.';
COMMENT ON COLUMN figure_change.sent_low IS 'lower end of its interval as sent.';
COMMENT ON COLUMN figure_change.sent_high IS 'upper end of its interval as sent.';
COMMENT ON COLUMN figure_change.n IS 'units behind it now, null where the row is gone.';
COMMENT ON COLUMN figure_change."value" IS 'the figure now, null where the row is gone or has none.';
COMMENT ON COLUMN figure_change.low IS 'lower end of its interval now.';
COMMENT ON COLUMN figure_change.high IS 'upper end of its interval now.';
