-- The day of the first shift report that ever left
-- One row, null where none has. Reads: report_sent.
SELECT min(report_sent.production_date) AS first_date
FROM report_sent
WHERE report_sent.period = 'shift';
