-- Which of some mails the store knows
-- One row a mail. Parameter: message_ids. Reads: report_sent.
SELECT DISTINCT report_sent.message_id
FROM report_sent
WHERE report_sent.message_id IN (SELECT unnest($message_ids));
