-- Shift reports that somebody still waits for
-- One row a report x recipient. Reads: report_sent.
SELECT report_sent.production_date, report_sent.shift, report_sent.message_id, report_sent.recipient
FROM report_sent
WHERE report_sent.period = 'shift' AND report_sent.state = 'waiting'
ORDER BY report_sent.production_date, report_sent.shift, report_sent.message_id, report_sent.recipient;
