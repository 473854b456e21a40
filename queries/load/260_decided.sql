-- Rows that were decided again touch what rows that come in would
-- Writes: incoming. Reads: pool.
CREATE OR REPLACE TEMP TABLE incoming AS
SELECT * EXCLUDE (standing)
FROM pool;
