-- A known content came again: its earliest time counts, under the name it had then (rule 1)
-- Of names of one time the first by letter. Parameters: file_id, made_at, path. Writes: source_file, file_rank.
UPDATE source_file
SET made_at = $made_at, path = $path
WHERE file_id = $file_id AND (made_at > $made_at OR (made_at = $made_at AND path > $path));

CREATE OR REPLACE TEMP TABLE file_rank AS
SELECT file_id, row_number() OVER (ORDER BY made_at, sha256) * 4294967296 AS rank
FROM source_file;
