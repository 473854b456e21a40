-- Rows that were taken back are stored no longer, and the keys have been asked
-- Writes: keyed_row, touched_key. Reads: taken_back.
DELETE FROM keyed_row AS k
USING taken_back AS b
WHERE k.file_id = b.file_id AND k.file_row = b.file_row;

DELETE FROM touched_key;
