-- Contents that were taken in
-- One row a file. Reads: source_file.
SELECT sha256, file_id, made_at
FROM source_file;
