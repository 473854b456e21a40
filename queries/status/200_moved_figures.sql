-- moved_figures: figures that were sent or settled and are others now
-- One row is a figure x key of a production date from $from_date on, against its newest sending (rule 4). It compares as
-- the view figure_change does, of these dates alone, so that its cost does not grow with the store.
-- Reads: figure_sent, report_sent, figure_now.
WITH newest AS (
    SELECT
        figure_sent.message_id,
        figure_sent.figure,
        figure_sent.key,
        figure_sent.n,
        figure_sent."value",
        report_sent.sent_at
    FROM figure_sent
    LEFT JOIN report_sent ON report_sent.message_id = figure_sent.message_id
    WHERE
        figure_sent.key >= concat('{"production_date":"', CAST($from_date AS VARCHAR))
        -- an older version wrote names with a quote as they are, which is no JSON
        AND json_valid(figure_sent.key)
    QUALIFY row_number() OVER (
        PARTITION BY figure_sent.figure, figure_sent.key
        ORDER BY report_sent.sent_at DESC NULLS LAST, figure_sent.message_id DESC
    ) = 1
),

now_is AS (
    SELECT figure_now.figure, figure_now.key, figure_now.n, figure_now."value"
    FROM figure_now
    WHERE figure_now.production_date >= $from_date
)

SELECT
    newest.figure,
    newest.key,
    newest.sent_at,
    newest.n AS sent_n,
    newest."value" AS sent_value,
    now_is.n,
    now_is."value"
FROM newest
LEFT JOIN now_is ON now_is.figure = newest.figure AND now_is.key = newest.key
WHERE
    coalesce(now_is.n, 0) <> coalesce(newest.n, 0)
    OR (now_is."value" IS NULL) <> (newest."value" IS NULL)
    OR abs(now_is."value" - newest."value") > 1e-9
ORDER BY newest.key, newest.figure;
