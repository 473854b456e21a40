-- The shift reports that have left, from a production date on
-- One row a shift: how many reports of it left, the latest one, when that was made and whether somebody has it by mail.
-- The page itself stands as a recipient without an @. Parameter: since. Reads: report_sent.
SELECT
    report_sent.production_date,
    report_sent.shift,
    count(DISTINCT report_sent.message_id) AS letters,
    max_by(report_sent.message_id, report_sent.sent_at) FILTER (WHERE NOT contains(report_sent.recipient, '@')) AS message_id,
    max(report_sent.sent_at) FILTER (WHERE NOT contains(report_sent.recipient, '@')) AS made_at
FROM report_sent
WHERE report_sent.period = 'shift' AND report_sent.production_date >= $since
GROUP BY report_sent.production_date, report_sent.shift
ORDER BY report_sent.production_date, report_sent.shift;
