-- Rows of a file that are tried again are refused no longer, or refused anew
-- Writes: rejected_row. Reads: arriving (file_row). Parameter: file_id.
DELETE FROM rejected_row
WHERE file_id = $file_id AND file_row IN (SELECT file_row FROM arriving);
