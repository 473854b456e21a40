-- A content that was taken in
-- One row, none where it is new. Parameter: sha256. Reads: source_file.
SELECT file_id, made_at
FROM source_file
WHERE sha256 = $sha256;
