-- report_sent: one row is a report to one recipient
CREATE TABLE report_sent (
    period VARCHAR,
    production_date DATE,
    shift VARCHAR,
    recipient VARCHAR,
    message_id VARCHAR,
    state VARCHAR,
    tries BIGINT,
    sent_at TIMESTAMPTZ
);
COMMENT ON TABLE report_sent IS 'One row is a report to one recipient.';
COMMENT ON COLUMN report_sent.period IS 'shift, day or week.';
COMMENT ON COLUMN report_sent.production_date IS 'day of the report.';
COMMENT ON COLUMN report_sent.shift IS 'the shift, null for day and week.';
COMMENT ON COLUMN report_sent.recipient IS 'address.';
COMMENT ON COLUMN report_sent.message_id IS 'Message-ID, the same on a retry.';
COMMENT ON COLUMN report_sent.state IS 'waiting, sent, refused or failed.';
COMMENT ON COLUMN report_sent.tries IS 'how often it was tried.';
COMMENT ON COLUMN report_sent.sent_at IS 'when the relay took it (UTC).';
