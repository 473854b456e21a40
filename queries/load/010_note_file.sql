-- Note a file taken in
-- One row a file; its counts follow when its rows are in. Writes: source_file, file_rank.
INSERT INTO source_file (file_id, feed, path, sha256, bytes, made_at, loaded_at, rows)
VALUES ($file_id, $feed, $path, $sha256, $bytes, $made_at, $loaded_at, $rows);

-- Rule 1's rank of files, as a number: later made_at wins, ties by sha256.
CREATE OR REPLACE TEMP TABLE file_rank AS
SELECT file_id, row_number() OVER (ORDER BY made_at, sha256) * 4294967296 AS rank
FROM source_file;
