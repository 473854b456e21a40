-- A file's counts after rows were tried again
-- Writes: source_file. Parameters: file_id, mended.
UPDATE source_file
SET accepted = accepted + $mended, rejected = rejected - $mended
WHERE file_id = $file_id;
