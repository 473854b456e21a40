-- A unit key may give rows that it named to another unit (rule 17)
-- Writes: touched_key. Reads: incoming.
INSERT INTO touched_key
SELECT kind || '=' || "value" AS key
FROM incoming;
