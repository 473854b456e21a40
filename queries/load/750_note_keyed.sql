-- Rows of a file that were named by a unit key
-- Writes: keyed_row. Reads: arriving. Parameters: file_id, feed.
INSERT INTO keyed_row BY NAME
SELECT a.*, $file_id AS file_id, $feed AS feed
FROM arriving AS a;
