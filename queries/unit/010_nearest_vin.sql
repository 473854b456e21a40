-- VINs like a given one (rule 17: edit distance with swaps at most 2, at most 3)
-- One row a VIN. Parameter: vin. Reads: unit.
SELECT vin
FROM unit
WHERE in_schedule AND abs(length(vin) - length($vin)) <= 2 AND damerau_levenshtein(vin, $vin) <= 2
ORDER BY damerau_levenshtein(vin, $vin), vin
LIMIT 3;
