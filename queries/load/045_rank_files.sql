-- Rule 1's rank of files, as a number: later made_at wins, ties by sha256
-- For what is decided again though no file comes. Writes: file_rank. Reads: source_file.
CREATE OR REPLACE TEMP TABLE file_rank AS
SELECT file_id, row_number() OVER (ORDER BY made_at, sha256) * 4294967296 AS rank
FROM source_file;
