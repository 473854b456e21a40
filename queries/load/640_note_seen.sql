-- Note what became of the inbox's files
-- Writes: seen_file. Reads: arriving.
DELETE FROM seen_file
WHERE path IN (SELECT path FROM arriving);

INSERT INTO seen_file BY NAME
SELECT *
FROM arriving;
