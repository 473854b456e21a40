-- Note what became of the rows of files
-- One row of arriving is a file: file_id, accepted, repeated, amended, rejected. Writes: source_file.
UPDATE source_file
SET accepted = a.accepted, repeated = a.repeated, amended = a.amended, rejected = a.rejected
FROM arriving AS a
WHERE source_file.file_id = a.file_id;
