-- Write down a mail before its first try: a row a recipient
-- Writes: report_sent. Reads: arriving.
INSERT INTO report_sent BY NAME
SELECT *
FROM arriving;
