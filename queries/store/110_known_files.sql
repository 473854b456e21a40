-- Contents that were taken in
-- One row a content that is known. Parameter: sha256s. Reads: source_file.
SELECT sha256, file_id, made_at
FROM source_file
WHERE list_contains($sha256s, sha256);
