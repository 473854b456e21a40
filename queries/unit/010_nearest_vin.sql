-- VINs like a given one that a schedule named (rule 17: edit distance with swaps at most 2, at most 3)
-- One row a VIN; units without a run of a test that the given one ran come first. Parameter: vin. Reads: unit, run.
WITH near AS (
    SELECT vin, damerau_levenshtein(vin, $vin) AS distance
    FROM unit
    WHERE in_schedule AND abs(length(vin) - length($vin)) <= 2 AND damerau_levenshtein(vin, $vin) <= 2
),

tested AS (
    SELECT DISTINCT r.vin
    FROM run AS r
    WHERE r.vin IN (SELECT vin FROM near) AND r.test IN (SELECT m.test FROM run AS m WHERE m.vin = $vin)
)

SELECT n.vin
FROM near AS n
LEFT JOIN tested AS t ON n.vin = t.vin
ORDER BY t.vin IS NOT NULL, n.distance, n.vin
LIMIT 3;
