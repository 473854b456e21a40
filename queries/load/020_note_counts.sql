-- Note what became of a file's rows
-- Parameters: file_id, accepted, repeated, amended, rejected. Writes: source_file.
UPDATE source_file
SET accepted = $accepted, repeated = $repeated, amended = $amended, rejected = $rejected
WHERE file_id = $file_id;
