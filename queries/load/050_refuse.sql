-- Keep the refused and the waiting rows of a file
-- One row a row of the frame `arriving`. Writes: rejected_row.
INSERT INTO rejected_row (file_id, file_row, feed, reason, waits_for, raw)
SELECT $file_id, file_row, $feed, reason, waits_for, raw
FROM arriving;
