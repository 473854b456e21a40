-- Clauses of the plan, anew
-- Writes: applies. Reads: arriving.
DELETE FROM applies
WHERE owner LIKE 'plan:%';

INSERT INTO applies BY NAME
SELECT *
FROM arriving;
