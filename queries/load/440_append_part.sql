-- Findings or readings that no other contests
-- Writes: the table, and touched_unit. Places: part.
INSERT INTO {part} BY NAME
SELECT *
FROM incoming_part
WHERE run_id NOT IN (SELECT run_id FROM version);
