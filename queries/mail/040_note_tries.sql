-- Write down what became of mails, as their journals tell it; doing it twice changes nothing
-- Writes: report_sent. Reads: arriving.
UPDATE report_sent
SET state = arriving.state, tries = arriving.tries, sent_at = arriving.sent_at
FROM arriving
WHERE report_sent.message_id = arriving.message_id AND report_sent.recipient = arriving.recipient;
