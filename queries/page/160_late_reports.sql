-- late_reports: reports of earlier shifts that came late, or that somebody has not got
-- One row is a shift of the three days up to the present one; seconds is how long after its end the last recipient had
-- it. A report that came late before the present shift began was told by the page before.
-- Parameters: production_date, shift, due_seconds (so many after a shift's end a report is late).
-- Reads: report_sent, shift_window.
WITH present AS (
    SELECT shift_window.starts_at, shift_window.ends_at
    FROM shift_window
    WHERE
        shift_window.production_date = $production_date
        AND shift_window.shift = $shift
),

got AS (
    SELECT
        report_sent.production_date,
        report_sent.shift,
        report_sent.recipient,
        min(report_sent.sent_at) AS sent_at,
        bool_or(report_sent.state = 'waiting') AS waits
    FROM report_sent
    WHERE
        report_sent.period = 'shift'
        AND report_sent.production_date BETWEEN $production_date - 4 AND $production_date
    GROUP BY report_sent.production_date, report_sent.shift, report_sent.recipient
),

told AS (
    SELECT
        got.production_date,
        got.shift,
        shift_window.ends_at,
        date_diff('second', shift_window.ends_at, got.sent_at) AS seconds,
        got.sent_at IS NULL AND got.waits AS waits,
        got.sent_at IS NULL AND NOT got.waits AS refused
    FROM got
    INNER JOIN shift_window
        ON shift_window.production_date = got.production_date
        AND shift_window.shift = got.shift
    CROSS JOIN present
    WHERE
        shift_window.ends_at < present.ends_at
        AND shift_window.ends_at >= present.ends_at - INTERVAL '72' HOUR
        AND coalesce(got.sent_at >= present.starts_at, true)
)

SELECT
    told.production_date,
    told.shift,
    max(told.seconds) AS seconds,
    count_if(told.waits) AS waiting,
    count_if(told.refused) AS refused
FROM told
WHERE coalesce(told.seconds > $due_seconds, true)
GROUP BY told.production_date, told.shift, told.ends_at
ORDER BY told.ends_at;
