-- Rows that were refused or wait, with the file they came in
-- One row a row. Reads: rejected_row, source_file.
SELECT r.file_id, r.file_row, r.feed, r.reason, r.waits_for, r.raw, s.path
FROM rejected_row AS r
INNER JOIN source_file AS s ON r.file_id = s.file_id
ORDER BY r.feed, r.file_id, r.file_row;
