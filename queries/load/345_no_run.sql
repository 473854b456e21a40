-- Nothing comes in
-- No row, with the columns of run.
SELECT *
FROM run
LIMIT 0;
