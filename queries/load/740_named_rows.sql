-- Waiting rows whose unit key has come, with the file they came in
-- One row a row. Reads: rejected_row, source_file, unit_key.
SELECT r.file_id, r.file_row, r.feed, r.reason, r.waits_for, r.raw, s.path
FROM rejected_row AS r
INNER JOIN source_file AS s ON r.file_id = s.file_id
WHERE r.waits_for IN (SELECT k.kind || '=' || k."value" FROM unit_key AS k)
ORDER BY r.feed, r.file_id, r.file_row;
