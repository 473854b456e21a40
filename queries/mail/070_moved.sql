-- Figures of tests and line that are others now than the latest report of their shift said
-- One row a figure; title is the test's, null for the line. Rule 4. It compares as the view figure_change does, of these
-- dates alone. Parameter: since. Reads: report_sent, figure_sent, figure_now, test_definition.
WITH latest AS (
    SELECT
        report_sent.production_date,
        report_sent.shift,
        max_by(report_sent.message_id, report_sent.sent_at) AS message_id
    FROM report_sent
    WHERE
        report_sent.period = 'shift'
        AND NOT contains(report_sent.recipient, '@')
        AND report_sent.production_date >= $since
    GROUP BY report_sent.production_date, report_sent.shift
),

now_is AS (
    SELECT figure_now.test, figure_now.figure, figure_now.key, figure_now.n, figure_now."value"
    FROM figure_now
    WHERE figure_now.production_date >= $since AND figure_now.code IS NULL
)

SELECT
    latest.production_date,
    latest.shift,
    latest.message_id,
    test_definition.title,
    figure_sent.figure,
    figure_sent.n AS sent_n,
    figure_sent."value" AS sent_value,
    now_is.n,
    now_is."value"
FROM latest
INNER JOIN figure_sent ON figure_sent.message_id = latest.message_id
LEFT JOIN now_is ON now_is.figure = figure_sent.figure AND now_is.key = figure_sent.key
-- an older version wrote names with a quote as they are, which is no JSON
LEFT JOIN test_definition
    ON test_definition.test
    = CASE WHEN json_valid(figure_sent.key) THEN json_extract_string(figure_sent.key, 'test') END
WHERE
    NOT starts_with(figure_sent.figure, 'pareto_by_shift')
    AND json_valid(figure_sent.key)
    AND (
        coalesce(now_is.n, 0) <> coalesce(figure_sent.n, 0)
        OR (now_is."value" IS NULL) <> (figure_sent."value" IS NULL)
        OR abs(now_is."value" - figure_sent."value") > 1e-9
    )
ORDER BY latest.production_date, latest.shift, test_definition.position, figure_sent.figure DESC;
