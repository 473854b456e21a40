-- A known content came under an earlier time: that time counts (rule 1)
-- Parameters: file_id, made_at. Writes: source_file, file_rank.
UPDATE source_file
SET made_at = $made_at
WHERE file_id = $file_id AND made_at > $made_at;

CREATE OR REPLACE TEMP TABLE file_rank AS
SELECT file_id, row_number() OVER (ORDER BY made_at, sha256) * 4294967296 AS rank
FROM source_file;
