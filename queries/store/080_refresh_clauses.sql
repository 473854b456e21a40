-- Clauses of the catalogue, anew
-- Writes: applies. Reads: arriving.
DELETE FROM applies
WHERE owner LIKE 'code:%';

INSERT INTO applies BY NAME
SELECT *
FROM arriving;
