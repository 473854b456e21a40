-- Unit keys that another process has brought since the files of this one were read
-- Writes: touched_key. Reads: known_key (the keys they were read with), unit_key. Parameter: kinds.
INSERT INTO touched_key
WITH now_known AS (
    SELECT kind, "value", vin, valid_from, valid_to
    FROM unit_key
    WHERE list_contains($kinds, kind)
)

SELECT kind || '=' || "value" AS key
FROM (
    SELECT * FROM now_known
    EXCEPT
    SELECT * FROM known_key
)
UNION ALL
SELECT kind || '=' || "value" AS key
FROM (
    SELECT * FROM known_key
    EXCEPT
    SELECT * FROM now_known
);
